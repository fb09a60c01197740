CREATE TABLE "service_count" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"figure" text NOT NULL,
	"at" text NOT NULL,
	"of" text NOT NULL,
	"sum0" double precision NOT NULL,
	"sum1" double precision NOT NULL,
	"sum2" double precision NOT NULL,
	"sum3" double precision NOT NULL,
	"sum4" double precision NOT NULL,
	"sum5" double precision NOT NULL,
	"sum6" double precision NOT NULL
);
--> statement-breakpoint
CREATE TABLE "service_part" (
	"patient_id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"parts" jsonb NOT NULL
);
--> statement-breakpoint
ALTER TABLE "work_state" ADD COLUMN "counted" boolean DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE "service_count" ADD CONSTRAINT "service_count_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "service_part" ADD CONSTRAINT "service_part_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "service_part" ADD CONSTRAINT "service_part_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE UNIQUE INDEX "service_count_part" ON "service_count" USING btree ("clinic_id","figure","at","of");--> statement-breakpoint
CREATE INDEX "work_state_counted" ON "work_state" USING btree ("clinic_id","counted");