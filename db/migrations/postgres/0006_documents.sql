CREATE TABLE "issued_document" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"visit_id" text,
	"kind" text NOT NULL,
	"language" text NOT NULL,
	"template_version" integer NOT NULL,
	"content" jsonb NOT NULL,
	"author" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"submission_id" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "share_link" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"document_id" text NOT NULL,
	"token_hash" text NOT NULL,
	"expires_at" timestamp with time zone NOT NULL,
	"by" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"withdrawn_at" timestamp with time zone,
	"withdrawn_by" text
);
--> statement-breakpoint
CREATE TABLE "share_opening" (
	"id" text PRIMARY KEY NOT NULL,
	"link_id" text NOT NULL,
	"cookie_hash" text NOT NULL,
	"at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
ALTER TABLE "issued_document" ADD CONSTRAINT "issued_document_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "issued_document" ADD CONSTRAINT "issued_document_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "issued_document" ADD CONSTRAINT "issued_document_visit_id_visit_id_fk" FOREIGN KEY ("visit_id") REFERENCES "public"."visit"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "share_link" ADD CONSTRAINT "share_link_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "share_link" ADD CONSTRAINT "share_link_document_id_issued_document_id_fk" FOREIGN KEY ("document_id") REFERENCES "public"."issued_document"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "share_opening" ADD CONSTRAINT "share_opening_link_id_share_link_id_fk" FOREIGN KEY ("link_id") REFERENCES "public"."share_link"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "issued_document_of" ON "issued_document" USING btree ("patient_id","at");--> statement-breakpoint
CREATE UNIQUE INDEX "issued_document_submission" ON "issued_document" USING btree ("clinic_id","submission_id");--> statement-breakpoint
CREATE UNIQUE INDEX "share_link_token" ON "share_link" USING btree ("token_hash");--> statement-breakpoint
CREATE INDEX "share_link_document" ON "share_link" USING btree ("document_id");--> statement-breakpoint
CREATE UNIQUE INDEX "share_opening_cookie" ON "share_opening" USING btree ("cookie_hash");--> statement-breakpoint
CREATE INDEX "share_opening_link" ON "share_opening" USING btree ("link_id","at");
--> statement-breakpoint
CREATE TRIGGER "issued_document_refuses_change" BEFORE UPDATE OR DELETE ON "issued_document" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "issued_document_refuses_truncate" BEFORE TRUNCATE ON "issued_document" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "share_opening_refuses_change" BEFORE UPDATE OR DELETE ON "share_opening" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "share_opening_refuses_truncate" BEFORE TRUNCATE ON "share_opening" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
