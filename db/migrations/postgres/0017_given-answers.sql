CREATE TABLE "given_answer" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"visit_id" text NOT NULL,
	"revision" integer NOT NULL,
	"given_on" text NOT NULL,
	"engine" integer NOT NULL,
	"basis" text NOT NULL,
	"verdicts" jsonb NOT NULL,
	"outlooks" jsonb NOT NULL
);
--> statement-breakpoint
ALTER TABLE "given_answer" ADD CONSTRAINT "given_answer_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "given_answer" ADD CONSTRAINT "given_answer_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "given_answer" ADD CONSTRAINT "given_answer_visit_id_visit_id_fk" FOREIGN KEY ("visit_id") REFERENCES "public"."visit"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE UNIQUE INDEX "given_answer_visit" ON "given_answer" USING btree ("visit_id","revision");--> statement-breakpoint
CREATE INDEX "given_answer_patient" ON "given_answer" USING btree ("patient_id");
--> statement-breakpoint
-- What was said of a visit stands as it was given, and goes only when an erasure names its patient.
CREATE TRIGGER "given_answer_refuses_update" BEFORE UPDATE ON "given_answer" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "given_answer_refuses_delete" BEFORE DELETE ON "given_answer" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "given_answer_refuses_truncate" BEFORE TRUNCATE ON "given_answer" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
