ALTER TABLE "patient_revision" ADD COLUMN "affected_parts" jsonb;--> statement-breakpoint
ALTER TABLE "visit_revision" ADD COLUMN "measures" jsonb;