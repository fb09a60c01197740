CREATE TABLE "course_revision" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"number" integer NOT NULL,
	"phases" jsonb NOT NULL,
	"died_on" text,
	"author" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"reason" text,
	"submission_id" text NOT NULL
);
--> statement-breakpoint
ALTER TABLE "course_revision" ADD CONSTRAINT "course_revision_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "course_revision" ADD CONSTRAINT "course_revision_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE UNIQUE INDEX "course_revision_number" ON "course_revision" USING btree ("patient_id","number");--> statement-breakpoint
CREATE UNIQUE INDEX "course_revision_submission" ON "course_revision" USING btree ("clinic_id","submission_id");
--> statement-breakpoint
-- Writings of a course of care never change, and go only when an erasure names their patient.
CREATE TRIGGER "course_revision_refuses_update" BEFORE UPDATE ON "course_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "course_revision_refuses_delete" BEFORE DELETE ON "course_revision" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "course_revision_refuses_truncate" BEFORE TRUNCATE ON "course_revision" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
