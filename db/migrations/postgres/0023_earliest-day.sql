DROP INDEX "work_line_first";--> statement-breakpoint
ALTER TABLE "work_line" ADD COLUMN "soonest" text;--> statement-breakpoint
UPDATE "work_line" SET "soonest" = "due";--> statement-breakpoint
ALTER TABLE "work_line" ALTER COLUMN "soonest" SET NOT NULL;--> statement-breakpoint
CREATE INDEX "work_line_first" ON "work_line" USING btree ("clinic_id","first","soonest","id");