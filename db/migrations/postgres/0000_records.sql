CREATE TABLE "account" (
	"id" text PRIMARY KEY NOT NULL,
	"user_id" text NOT NULL,
	"account_id" text NOT NULL,
	"provider_id" text NOT NULL,
	"access_token" text,
	"refresh_token" text,
	"id_token" text,
	"access_token_expires_at" timestamp with time zone,
	"refresh_token_expires_at" timestamp with time zone,
	"scope" text,
	"password" text,
	"created_at" timestamp with time zone NOT NULL,
	"updated_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "audit" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"who" text NOT NULL,
	"action" text NOT NULL,
	"subject_kind" text NOT NULL,
	"subject_id" text NOT NULL,
	"detail" jsonb
);
--> statement-breakpoint
CREATE TABLE "clinic" (
	"id" text PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"subtitle" text NOT NULL,
	"length_unit" text NOT NULL,
	"mass_unit" text NOT NULL,
	"time_zone" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "clinic_setting" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"key" text NOT NULL,
	"value" jsonb,
	"by" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"reason" text
);
--> statement-breakpoint
CREATE TABLE "draft" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"author" text NOT NULL,
	"kind" text NOT NULL,
	"content" jsonb NOT NULL,
	"version" integer NOT NULL,
	"updated_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "ladder" (
	"id" text PRIMARY KEY NOT NULL,
	"visit_revision_id" text NOT NULL,
	"position" integer NOT NULL,
	"limb" text NOT NULL,
	"side" text NOT NULL,
	"zero" text NOT NULL,
	"direction" text NOT NULL,
	"unit" text NOT NULL,
	"interval_text" text,
	"rungs" jsonb NOT NULL,
	"landmarks" jsonb NOT NULL,
	"floor_to_fold" jsonb
);
--> statement-breakpoint
CREATE TABLE "patient" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"revision" integer NOT NULL,
	"reference_key" text NOT NULL,
	"search_text" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "patient_event" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"day" text NOT NULL,
	"kind" text NOT NULL,
	"words" text NOT NULL,
	"withdraws" text,
	"author" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"reason" text,
	"submission_id" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "patient_revision" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"number" integer NOT NULL,
	"reference" text NOT NULL,
	"name" text,
	"born" text NOT NULL,
	"sex" text NOT NULL,
	"diagnosis_group" text NOT NULL,
	"affected" jsonb NOT NULL,
	"language" text NOT NULL,
	"note" text,
	"author" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"reason" text,
	"submission_id" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "piece" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"label" text NOT NULL,
	"revision" integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE "piece_revision" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"piece_id" text NOT NULL,
	"number" integer NOT NULL,
	"label" text NOT NULL,
	"limb" text NOT NULL,
	"side" text NOT NULL,
	"covers" jsonb NOT NULL,
	"cut_from_visit_id" text,
	"cut_from" text NOT NULL,
	"reduction_pct" double precision NOT NULL,
	"convention" text NOT NULL,
	"allowance" jsonb,
	"first_fit" text,
	"first_worn" text,
	"life_days" integer NOT NULL,
	"lead_days" integer NOT NULL,
	"retired" text,
	"retired_reason" text,
	"author" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"reason" text,
	"submission_id" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "prompt_answer" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"prompt_key" text NOT NULL,
	"rule" text NOT NULL,
	"rule_version" text NOT NULL,
	"inputs_hash" text NOT NULL,
	"inputs" jsonb NOT NULL,
	"answer" text NOT NULL,
	"until" text,
	"reason" text,
	"by" text NOT NULL,
	"at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "rate_limit" (
	"id" text PRIMARY KEY NOT NULL,
	"key" text NOT NULL,
	"count" integer NOT NULL,
	"last_request" bigint NOT NULL
);
--> statement-breakpoint
CREATE TABLE "session" (
	"id" text PRIMARY KEY NOT NULL,
	"user_id" text NOT NULL,
	"token" text NOT NULL,
	"expires_at" timestamp with time zone NOT NULL,
	"ip_address" text,
	"user_agent" text,
	"created_at" timestamp with time zone NOT NULL,
	"updated_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "sign_in_failure" (
	"id" text PRIMARY KEY NOT NULL,
	"email_hash" text NOT NULL,
	"at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "user" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"role" text NOT NULL,
	"name" text NOT NULL,
	"email" text NOT NULL,
	"email_verified" boolean NOT NULL,
	"image" text,
	"created_at" timestamp with time zone NOT NULL,
	"updated_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "verification" (
	"id" text PRIMARY KEY NOT NULL,
	"identifier" text NOT NULL,
	"value" text NOT NULL,
	"expires_at" timestamp with time zone NOT NULL,
	"created_at" timestamp with time zone NOT NULL,
	"updated_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "visit" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"day" text NOT NULL,
	"revision" integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE "visit_revision" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"visit_id" text NOT NULL,
	"number" integer NOT NULL,
	"day" text NOT NULL,
	"time" text,
	"posture" text,
	"measurer" text,
	"height" jsonb,
	"weight" jsonb,
	"note" text,
	"author" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"reason" text,
	"submission_id" text NOT NULL
);
--> statement-breakpoint
ALTER TABLE "account" ADD CONSTRAINT "account_user_id_user_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."user"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "audit" ADD CONSTRAINT "audit_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "clinic_setting" ADD CONSTRAINT "clinic_setting_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "draft" ADD CONSTRAINT "draft_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "draft" ADD CONSTRAINT "draft_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "ladder" ADD CONSTRAINT "ladder_visit_revision_id_visit_revision_id_fk" FOREIGN KEY ("visit_revision_id") REFERENCES "public"."visit_revision"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "patient" ADD CONSTRAINT "patient_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "patient_event" ADD CONSTRAINT "patient_event_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "patient_event" ADD CONSTRAINT "patient_event_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "patient_revision" ADD CONSTRAINT "patient_revision_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "patient_revision" ADD CONSTRAINT "patient_revision_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "piece" ADD CONSTRAINT "piece_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "piece" ADD CONSTRAINT "piece_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "piece_revision" ADD CONSTRAINT "piece_revision_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "piece_revision" ADD CONSTRAINT "piece_revision_piece_id_piece_id_fk" FOREIGN KEY ("piece_id") REFERENCES "public"."piece"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "piece_revision" ADD CONSTRAINT "piece_revision_cut_from_visit_id_visit_id_fk" FOREIGN KEY ("cut_from_visit_id") REFERENCES "public"."visit"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "prompt_answer" ADD CONSTRAINT "prompt_answer_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "prompt_answer" ADD CONSTRAINT "prompt_answer_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "session" ADD CONSTRAINT "session_user_id_user_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."user"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "user" ADD CONSTRAINT "user_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "visit" ADD CONSTRAINT "visit_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "visit" ADD CONSTRAINT "visit_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "visit_revision" ADD CONSTRAINT "visit_revision_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "visit_revision" ADD CONSTRAINT "visit_revision_visit_id_visit_id_fk" FOREIGN KEY ("visit_id") REFERENCES "public"."visit"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "account_user" ON "account" USING btree ("user_id");--> statement-breakpoint
CREATE INDEX "audit_when" ON "audit" USING btree ("clinic_id","at");--> statement-breakpoint
CREATE INDEX "audit_subject" ON "audit" USING btree ("subject_kind","subject_id");--> statement-breakpoint
CREATE INDEX "clinic_setting_latest" ON "clinic_setting" USING btree ("clinic_id","key","at");--> statement-breakpoint
CREATE UNIQUE INDEX "draft_of" ON "draft" USING btree ("clinic_id","patient_id","author","kind");--> statement-breakpoint
CREATE UNIQUE INDEX "ladder_place" ON "ladder" USING btree ("visit_revision_id","position");--> statement-breakpoint
CREATE UNIQUE INDEX "patient_reference" ON "patient" USING btree ("clinic_id","reference_key");--> statement-breakpoint
CREATE INDEX "patient_search" ON "patient" USING btree ("clinic_id","search_text","reference_key","id");--> statement-breakpoint
CREATE INDEX "patient_event_day" ON "patient_event" USING btree ("patient_id","day");--> statement-breakpoint
CREATE UNIQUE INDEX "patient_event_submission" ON "patient_event" USING btree ("clinic_id","submission_id");--> statement-breakpoint
CREATE UNIQUE INDEX "patient_event_withdrawn" ON "patient_event" USING btree ("withdraws");--> statement-breakpoint
CREATE UNIQUE INDEX "patient_revision_number" ON "patient_revision" USING btree ("patient_id","number");--> statement-breakpoint
CREATE UNIQUE INDEX "patient_revision_submission" ON "patient_revision" USING btree ("clinic_id","submission_id");--> statement-breakpoint
CREATE INDEX "piece_patient" ON "piece" USING btree ("patient_id");--> statement-breakpoint
CREATE INDEX "piece_clinic" ON "piece" USING btree ("clinic_id");--> statement-breakpoint
CREATE UNIQUE INDEX "piece_revision_number" ON "piece_revision" USING btree ("piece_id","number");--> statement-breakpoint
CREATE UNIQUE INDEX "piece_revision_submission" ON "piece_revision" USING btree ("clinic_id","submission_id");--> statement-breakpoint
CREATE INDEX "prompt_answer_latest" ON "prompt_answer" USING btree ("patient_id","prompt_key","at");--> statement-breakpoint
CREATE UNIQUE INDEX "rate_limit_key" ON "rate_limit" USING btree ("key");--> statement-breakpoint
CREATE UNIQUE INDEX "session_token" ON "session" USING btree ("token");--> statement-breakpoint
CREATE INDEX "session_user" ON "session" USING btree ("user_id");--> statement-breakpoint
CREATE INDEX "sign_in_failure_email" ON "sign_in_failure" USING btree ("email_hash","at");--> statement-breakpoint
CREATE UNIQUE INDEX "user_email" ON "user" USING btree ("email");--> statement-breakpoint
CREATE INDEX "user_clinic" ON "user" USING btree ("clinic_id");--> statement-breakpoint
CREATE INDEX "verification_identifier" ON "verification" USING btree ("identifier");--> statement-breakpoint
CREATE INDEX "visit_patient_day" ON "visit" USING btree ("patient_id","day");--> statement-breakpoint
CREATE UNIQUE INDEX "visit_revision_number" ON "visit_revision" USING btree ("visit_id","number");--> statement-breakpoint
CREATE UNIQUE INDEX "visit_revision_submission" ON "visit_revision" USING btree ("clinic_id","submission_id");