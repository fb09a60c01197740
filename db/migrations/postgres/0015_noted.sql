CREATE TABLE "noted_revision" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"kind" text NOT NULL,
	"thing" text NOT NULL,
	"number" integer NOT NULL,
	"day" text,
	"content" jsonb,
	"author" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"reason" text,
	"submission_id" text NOT NULL
);
--> statement-breakpoint
ALTER TABLE "noted_revision" ADD CONSTRAINT "noted_revision_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "noted_revision" ADD CONSTRAINT "noted_revision_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE UNIQUE INDEX "noted_revision_number" ON "noted_revision" USING btree ("kind","thing","number");--> statement-breakpoint
CREATE UNIQUE INDEX "noted_revision_submission" ON "noted_revision" USING btree ("clinic_id","submission_id");--> statement-breakpoint
CREATE INDEX "noted_revision_patient" ON "noted_revision" USING btree ("patient_id","kind");--> statement-breakpoint
CREATE INDEX "noted_revision_day" ON "noted_revision" USING btree ("clinic_id","kind","day");
--> statement-breakpoint
-- States of noted things never change, and go only when an erasure names their patient.
CREATE TRIGGER "noted_revision_refuses_update" BEFORE UPDATE ON "noted_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "noted_revision_refuses_delete" BEFORE DELETE ON "noted_revision" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "noted_revision_refuses_truncate" BEFORE TRUNCATE ON "noted_revision" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
