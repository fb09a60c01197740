ALTER TABLE "work_state" ADD COLUMN "renewals" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
CREATE INDEX "work_state_basis" ON "work_state" USING btree ("clinic_id","basis");
--> statement-breakpoint
INSERT INTO "work_state" ("patient_id", "clinic_id", "changes") SELECT "id", "clinic_id", 0 FROM "patient" WHERE "id" NOT IN (SELECT "patient_id" FROM "work_state");
