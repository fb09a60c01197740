CREATE TABLE "calendar_feed" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text,
	"token_hash" text NOT NULL,
	"by" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"withdrawn_at" timestamp with time zone,
	"withdrawn_by" text,
	"last_read_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "caution_answer" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"visit_id" text,
	"day" text NOT NULL,
	"card" text NOT NULL,
	"card_version" text NOT NULL,
	"answer" text NOT NULL,
	"figures" jsonb,
	"wording" text NOT NULL,
	"words" text,
	"by" text NOT NULL,
	"at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "due_date" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"key" text NOT NULL,
	"kind" text NOT NULL,
	"day" text NOT NULL,
	"computed" text NOT NULL,
	"state" text NOT NULL,
	"sequence" integer NOT NULL,
	"changed_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "garment_order" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"number" integer NOT NULL,
	"state" text NOT NULL,
	"revision" integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE "moved_date" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"key" text NOT NULL,
	"computed" text NOT NULL,
	"day" text NOT NULL,
	"reason" text NOT NULL,
	"by" text NOT NULL,
	"at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "order_revision" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"order_id" text NOT NULL,
	"number" integer NOT NULL,
	"cut_from_visit_id" text NOT NULL,
	"content" jsonb NOT NULL,
	"author" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"reason" text,
	"submission_id" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "patient_coverage" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"rule" text,
	"from" text NOT NULL,
	"note" text,
	"by" text NOT NULL,
	"at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "repeat_taping" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"visit_id" text NOT NULL,
	"revision" integer NOT NULL,
	"day" text NOT NULL,
	"pairs" integer NOT NULL,
	"squares_mm2" double precision NOT NULL
);
--> statement-breakpoint
CREATE TABLE "work_count" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"kind" text NOT NULL,
	"due" text NOT NULL,
	"lines" integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE "work_line" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"key" text NOT NULL,
	"kind" text NOT NULL,
	"due" text NOT NULL,
	"title" text NOT NULL,
	"reason" text NOT NULL,
	"limb" jsonb,
	"prompt" jsonb,
	"first" boolean NOT NULL,
	"behind" integer NOT NULL,
	"outline" jsonb
);
--> statement-breakpoint
CREATE TABLE "work_state" (
	"patient_id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"changes" integer NOT NULL,
	"renewed_for" text,
	"basis" text,
	"claimed_until" timestamp with time zone
);
--> statement-breakpoint
DROP INDEX "piece_patient";--> statement-breakpoint
ALTER TABLE "piece_revision" ADD COLUMN "order_id" text;--> statement-breakpoint
ALTER TABLE "piece_revision" ADD COLUMN "garment" jsonb;--> statement-breakpoint
ALTER TABLE "piece_revision" ADD COLUMN "expected" text;--> statement-breakpoint
ALTER TABLE "piece_revision" ADD COLUMN "delivered" text;--> statement-breakpoint
ALTER TABLE "piece_revision" ADD COLUMN "fit" jsonb;--> statement-breakpoint
ALTER TABLE "piece_revision" ADD COLUMN "wear_in" jsonb;--> statement-breakpoint
ALTER TABLE "piece_revision" ADD COLUMN "kept" jsonb;--> statement-breakpoint
ALTER TABLE "piece_revision" ADD COLUMN "alterations" jsonb;--> statement-breakpoint
ALTER TABLE "piece_revision" ADD COLUMN "retired_as" text;--> statement-breakpoint
ALTER TABLE "calendar_feed" ADD CONSTRAINT "calendar_feed_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "calendar_feed" ADD CONSTRAINT "calendar_feed_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "caution_answer" ADD CONSTRAINT "caution_answer_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "caution_answer" ADD CONSTRAINT "caution_answer_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "caution_answer" ADD CONSTRAINT "caution_answer_visit_id_visit_id_fk" FOREIGN KEY ("visit_id") REFERENCES "public"."visit"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "due_date" ADD CONSTRAINT "due_date_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "due_date" ADD CONSTRAINT "due_date_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "garment_order" ADD CONSTRAINT "garment_order_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "garment_order" ADD CONSTRAINT "garment_order_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "moved_date" ADD CONSTRAINT "moved_date_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "moved_date" ADD CONSTRAINT "moved_date_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "order_revision" ADD CONSTRAINT "order_revision_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "order_revision" ADD CONSTRAINT "order_revision_order_id_garment_order_id_fk" FOREIGN KEY ("order_id") REFERENCES "public"."garment_order"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "order_revision" ADD CONSTRAINT "order_revision_cut_from_visit_id_visit_id_fk" FOREIGN KEY ("cut_from_visit_id") REFERENCES "public"."visit"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "patient_coverage" ADD CONSTRAINT "patient_coverage_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "patient_coverage" ADD CONSTRAINT "patient_coverage_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "repeat_taping" ADD CONSTRAINT "repeat_taping_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "repeat_taping" ADD CONSTRAINT "repeat_taping_visit_id_visit_id_fk" FOREIGN KEY ("visit_id") REFERENCES "public"."visit"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "work_count" ADD CONSTRAINT "work_count_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "work_line" ADD CONSTRAINT "work_line_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "work_line" ADD CONSTRAINT "work_line_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "work_state" ADD CONSTRAINT "work_state_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "work_state" ADD CONSTRAINT "work_state_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE UNIQUE INDEX "calendar_feed_token" ON "calendar_feed" USING btree ("token_hash");--> statement-breakpoint
CREATE INDEX "calendar_feed_clinic" ON "calendar_feed" USING btree ("clinic_id");--> statement-breakpoint
CREATE INDEX "caution_answer_latest" ON "caution_answer" USING btree ("patient_id","card","at");--> statement-breakpoint
CREATE UNIQUE INDEX "due_date_key" ON "due_date" USING btree ("patient_id","key");--> statement-breakpoint
CREATE INDEX "due_date_day" ON "due_date" USING btree ("clinic_id","state","day");--> statement-breakpoint
CREATE UNIQUE INDEX "garment_order_number" ON "garment_order" USING btree ("patient_id","number");--> statement-breakpoint
CREATE INDEX "garment_order_state" ON "garment_order" USING btree ("clinic_id","state");--> statement-breakpoint
CREATE INDEX "moved_date_latest" ON "moved_date" USING btree ("patient_id","key","at");--> statement-breakpoint
CREATE UNIQUE INDEX "order_revision_number" ON "order_revision" USING btree ("order_id","number");--> statement-breakpoint
CREATE UNIQUE INDEX "order_revision_submission" ON "order_revision" USING btree ("clinic_id","submission_id");--> statement-breakpoint
CREATE INDEX "patient_coverage_latest" ON "patient_coverage" USING btree ("patient_id","at");--> statement-breakpoint
CREATE INDEX "repeat_taping_day" ON "repeat_taping" USING btree ("clinic_id","day");--> statement-breakpoint
CREATE INDEX "repeat_taping_visit" ON "repeat_taping" USING btree ("visit_id");--> statement-breakpoint
CREATE UNIQUE INDEX "work_count_day" ON "work_count" USING btree ("clinic_id","kind","due");--> statement-breakpoint
CREATE UNIQUE INDEX "work_line_key" ON "work_line" USING btree ("patient_id","key");--> statement-breakpoint
CREATE INDEX "work_line_first" ON "work_line" USING btree ("clinic_id","first","due","id");--> statement-breakpoint
CREATE INDEX "work_line_kind" ON "work_line" USING btree ("clinic_id","kind","due","id");--> statement-breakpoint
CREATE INDEX "work_state_due" ON "work_state" USING btree ("clinic_id","renewed_for");--> statement-breakpoint
CREATE UNIQUE INDEX "piece_label" ON "piece" USING btree ("patient_id","label");
--> statement-breakpoint
CREATE TRIGGER "repeat_taping_refuses_change" BEFORE UPDATE OR DELETE ON "repeat_taping" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "repeat_taping_refuses_truncate" BEFORE TRUNCATE ON "repeat_taping" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "order_revision_refuses_change" BEFORE UPDATE OR DELETE ON "order_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "order_revision_refuses_truncate" BEFORE TRUNCATE ON "order_revision" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "moved_date_refuses_change" BEFORE UPDATE OR DELETE ON "moved_date" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "moved_date_refuses_truncate" BEFORE TRUNCATE ON "moved_date" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "patient_coverage_refuses_change" BEFORE UPDATE OR DELETE ON "patient_coverage" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "patient_coverage_refuses_truncate" BEFORE TRUNCATE ON "patient_coverage" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "caution_answer_refuses_change" BEFORE UPDATE OR DELETE ON "caution_answer" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "caution_answer_refuses_truncate" BEFORE TRUNCATE ON "caution_answer" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
