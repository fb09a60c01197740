CREATE TABLE "study_draft" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"study_id" text NOT NULL,
	"thing" text NOT NULL,
	"content" jsonb NOT NULL,
	"updated_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "study_revision" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"study_id" text NOT NULL,
	"thing" text NOT NULL,
	"number" integer NOT NULL,
	"content" jsonb NOT NULL,
	"author" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"reason" text,
	"submission_id" text NOT NULL
);
--> statement-breakpoint
ALTER TABLE "study_draft" ADD CONSTRAINT "study_draft_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "study_revision" ADD CONSTRAINT "study_revision_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE UNIQUE INDEX "study_draft_of" ON "study_draft" USING btree ("study_id","thing");--> statement-breakpoint
CREATE UNIQUE INDEX "study_revision_number" ON "study_revision" USING btree ("study_id","thing","number");--> statement-breakpoint
CREATE UNIQUE INDEX "study_revision_submission" ON "study_revision" USING btree ("clinic_id","submission_id");--> statement-breakpoint
CREATE INDEX "study_revision_thing" ON "study_revision" USING btree ("clinic_id","thing");
--> statement-breakpoint
-- States of a study never change and never go: no patient is in it.
CREATE TRIGGER "study_revision_refuses_update" BEFORE UPDATE ON "study_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "study_revision_refuses_delete" BEFORE DELETE ON "study_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "study_revision_refuses_truncate" BEFORE TRUNCATE ON "study_revision" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
