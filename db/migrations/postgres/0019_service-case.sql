CREATE TABLE "service_case" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"kind" text NOT NULL,
	"day" text NOT NULL,
	"limb" text NOT NULL,
	"side" text NOT NULL,
	"whole" integer,
	"some" integer,
	"phase" text,
	"lost" integer,
	"kept" boolean
);
--> statement-breakpoint
ALTER TABLE "service_case" ADD CONSTRAINT "service_case_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "service_case" ADD CONSTRAINT "service_case_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "service_case_clinic" ON "service_case" USING btree ("clinic_id","kind","day");--> statement-breakpoint
CREATE INDEX "service_case_patient" ON "service_case" USING btree ("patient_id");