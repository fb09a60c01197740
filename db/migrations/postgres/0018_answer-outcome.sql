CREATE TABLE "answer_outcome" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"given_id" text NOT NULL,
	"kind" text NOT NULL,
	"day" text NOT NULL,
	"limb" text NOT NULL,
	"side" text NOT NULL,
	"came" text NOT NULL,
	"against" text,
	"word" text,
	"probability" double precision,
	"tenth" integer,
	"changed" boolean,
	"miss" integer,
	"piece" text,
	"early_kept" boolean,
	"days_off" integer
);
--> statement-breakpoint
ALTER TABLE "answer_outcome" ADD CONSTRAINT "answer_outcome_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "answer_outcome" ADD CONSTRAINT "answer_outcome_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "answer_outcome" ADD CONSTRAINT "answer_outcome_given_id_given_answer_id_fk" FOREIGN KEY ("given_id") REFERENCES "public"."given_answer"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "answer_outcome_clinic" ON "answer_outcome" USING btree ("clinic_id","kind","day");--> statement-breakpoint
CREATE INDEX "answer_outcome_patient" ON "answer_outcome" USING btree ("patient_id");