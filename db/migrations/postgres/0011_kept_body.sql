ALTER TABLE "visit_revision" ADD COLUMN "kept_body" jsonb;--> statement-breakpoint
ALTER TABLE "visit_revision" ADD COLUMN "occasion" text;