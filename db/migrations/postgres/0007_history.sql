CREATE TABLE "audit_head" (
	"clinic_id" text PRIMARY KEY NOT NULL,
	"length" integer NOT NULL,
	"link" text NOT NULL,
	"sealed" integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE "erasure" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"patient_id" text NOT NULL,
	"by" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"reason" text NOT NULL
);
--> statement-breakpoint
ALTER TABLE "audit" ADD COLUMN "number" integer;--> statement-breakpoint
ALTER TABLE "audit" ADD COLUMN "salt" text;--> statement-breakpoint
ALTER TABLE "audit" ADD COLUMN "detail_digest" text;--> statement-breakpoint
ALTER TABLE "audit" ADD COLUMN "link" text;--> statement-breakpoint
ALTER TABLE "audit" ADD COLUMN "erasure_id" text;--> statement-breakpoint
ALTER TABLE "audit_head" ADD CONSTRAINT "audit_head_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "erasure" ADD CONSTRAINT "erasure_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "erasure" ADD CONSTRAINT "erasure_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "erasure_patient" ON "erasure" USING btree ("patient_id");--> statement-breakpoint
CREATE UNIQUE INDEX "audit_number" ON "audit" USING btree ("clinic_id","number");
--> statement-breakpoint
-- The chain: an audit row takes its link once, and loses its detail only to an erasure of its clinic. Everything else in it stands.
CREATE FUNCTION refuse_audit_change() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
  IF NEW.id IS NOT DISTINCT FROM OLD.id AND NEW.clinic_id IS NOT DISTINCT FROM OLD.clinic_id AND NEW.at IS NOT DISTINCT FROM OLD.at AND NEW.who IS NOT DISTINCT FROM OLD.who AND NEW.action IS NOT DISTINCT FROM OLD.action AND NEW.subject_kind IS NOT DISTINCT FROM OLD.subject_kind AND NEW.subject_id IS NOT DISTINCT FROM OLD.subject_id AND (
    (OLD.link IS NULL AND NEW.detail IS NOT DISTINCT FROM OLD.detail AND NEW.erasure_id IS NULL)
    OR (NEW.number IS NOT DISTINCT FROM OLD.number AND NEW.detail_digest IS NOT DISTINCT FROM OLD.detail_digest AND NEW.link IS NOT DISTINCT FROM OLD.link AND NEW.detail IS NULL AND NEW.salt IS NULL AND OLD.erasure_id IS NULL
      AND EXISTS (SELECT 1 FROM erasure WHERE id = NEW.erasure_id AND clinic_id = OLD.clinic_id))
  ) THEN RETURN NEW; END IF;
  RAISE EXCEPTION 'audit is append-only';
END $$;
--> statement-breakpoint
DROP TRIGGER "audit_refuses_change" ON "audit";
--> statement-breakpoint
CREATE TRIGGER "audit_refuses_update" BEFORE UPDATE ON "audit" FOR EACH ROW EXECUTE FUNCTION refuse_audit_change();
--> statement-breakpoint
CREATE TRIGGER "audit_refuses_delete" BEFORE DELETE ON "audit" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "audit_head_refuses_delete" BEFORE DELETE ON "audit_head" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "audit_head_refuses_truncate" BEFORE TRUNCATE ON "audit_head" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "erasure_refuses_change" BEFORE UPDATE OR DELETE ON "erasure" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "erasure_refuses_truncate" BEFORE TRUNCATE ON "erasure" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "patient_refuses_delete" BEFORE DELETE ON "patient" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
-- Content of a patient goes only when an erasure names that patient; heads never change whose they are.
CREATE FUNCTION refuse_delete_unless_erased() RETURNS trigger LANGUAGE plpgsql AS $$ DECLARE owner text; BEGIN
  CASE TG_TABLE_NAME
    WHEN 'visit_revision' THEN owner := (SELECT patient_id FROM visit WHERE id = OLD.visit_id);
    WHEN 'repeat_taping' THEN owner := (SELECT patient_id FROM visit WHERE id = OLD.visit_id);
    WHEN 'ladder' THEN owner := (SELECT patient_id FROM visit WHERE id = (SELECT visit_id FROM visit_revision WHERE id = OLD.visit_revision_id));
    WHEN 'piece_revision' THEN owner := (SELECT patient_id FROM piece WHERE id = OLD.piece_id);
    WHEN 'order_revision' THEN owner := (SELECT patient_id FROM garment_order WHERE id = OLD.order_id);
    WHEN 'share_opening' THEN owner := (SELECT patient_id FROM issued_document WHERE id = (SELECT document_id FROM share_link WHERE id = OLD.link_id));
    WHEN 'share_link' THEN owner := (SELECT patient_id FROM issued_document WHERE id = OLD.document_id);
    ELSE owner := OLD.patient_id;
  END CASE;
  IF EXISTS (SELECT 1 FROM erasure WHERE patient_id = owner) THEN RETURN OLD; END IF;
  RAISE EXCEPTION '% is append-only', TG_TABLE_NAME;
END $$;
--> statement-breakpoint
CREATE TRIGGER "patient_keeps_owner" BEFORE UPDATE OF "clinic_id" ON "patient" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "visit_keeps_owner" BEFORE UPDATE OF "patient_id", "clinic_id" ON "visit" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "piece_keeps_owner" BEFORE UPDATE OF "patient_id", "clinic_id" ON "piece" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "garment_order_keeps_owner" BEFORE UPDATE OF "patient_id", "clinic_id" ON "garment_order" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "patient_revision_refuses_change" ON "patient_revision";
--> statement-breakpoint
CREATE TRIGGER "patient_revision_refuses_update" BEFORE UPDATE ON "patient_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "patient_event_refuses_change" ON "patient_event";
--> statement-breakpoint
CREATE TRIGGER "patient_event_refuses_update" BEFORE UPDATE ON "patient_event" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "prompt_answer_refuses_change" ON "prompt_answer";
--> statement-breakpoint
CREATE TRIGGER "prompt_answer_refuses_update" BEFORE UPDATE ON "prompt_answer" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "caution_answer_refuses_change" ON "caution_answer";
--> statement-breakpoint
CREATE TRIGGER "caution_answer_refuses_update" BEFORE UPDATE ON "caution_answer" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "moved_date_refuses_change" ON "moved_date";
--> statement-breakpoint
CREATE TRIGGER "moved_date_refuses_update" BEFORE UPDATE ON "moved_date" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "patient_coverage_refuses_change" ON "patient_coverage";
--> statement-breakpoint
CREATE TRIGGER "patient_coverage_refuses_update" BEFORE UPDATE ON "patient_coverage" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "issued_document_refuses_change" ON "issued_document";
--> statement-breakpoint
CREATE TRIGGER "issued_document_refuses_update" BEFORE UPDATE ON "issued_document" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "visit_revision_refuses_change" ON "visit_revision";
--> statement-breakpoint
CREATE TRIGGER "visit_revision_refuses_update" BEFORE UPDATE ON "visit_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "repeat_taping_refuses_change" ON "repeat_taping";
--> statement-breakpoint
CREATE TRIGGER "repeat_taping_refuses_update" BEFORE UPDATE ON "repeat_taping" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "ladder_refuses_change" ON "ladder";
--> statement-breakpoint
CREATE TRIGGER "ladder_refuses_update" BEFORE UPDATE ON "ladder" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "piece_revision_refuses_change" ON "piece_revision";
--> statement-breakpoint
CREATE TRIGGER "piece_revision_refuses_update" BEFORE UPDATE ON "piece_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "order_revision_refuses_change" ON "order_revision";
--> statement-breakpoint
CREATE TRIGGER "order_revision_refuses_update" BEFORE UPDATE ON "order_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
DROP TRIGGER "share_opening_refuses_change" ON "share_opening";
--> statement-breakpoint
CREATE TRIGGER "share_opening_refuses_update" BEFORE UPDATE ON "share_opening" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "patient_revision_refuses_delete" BEFORE DELETE ON "patient_revision" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "patient_event_refuses_delete" BEFORE DELETE ON "patient_event" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "prompt_answer_refuses_delete" BEFORE DELETE ON "prompt_answer" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "caution_answer_refuses_delete" BEFORE DELETE ON "caution_answer" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "moved_date_refuses_delete" BEFORE DELETE ON "moved_date" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "patient_coverage_refuses_delete" BEFORE DELETE ON "patient_coverage" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "issued_document_refuses_delete" BEFORE DELETE ON "issued_document" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "visit_revision_refuses_delete" BEFORE DELETE ON "visit_revision" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "repeat_taping_refuses_delete" BEFORE DELETE ON "repeat_taping" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "ladder_refuses_delete" BEFORE DELETE ON "ladder" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "piece_revision_refuses_delete" BEFORE DELETE ON "piece_revision" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "order_revision_refuses_delete" BEFORE DELETE ON "order_revision" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "share_opening_refuses_delete" BEFORE DELETE ON "share_opening" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "visit_refuses_delete" BEFORE DELETE ON "visit" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "piece_refuses_delete" BEFORE DELETE ON "piece" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "garment_order_refuses_delete" BEFORE DELETE ON "garment_order" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "share_link_refuses_delete" BEFORE DELETE ON "share_link" FOR EACH ROW EXECUTE FUNCTION refuse_delete_unless_erased();
--> statement-breakpoint
CREATE TRIGGER "patient_refuses_truncate" BEFORE TRUNCATE ON "patient" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "visit_refuses_truncate" BEFORE TRUNCATE ON "visit" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "piece_refuses_truncate" BEFORE TRUNCATE ON "piece" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "garment_order_refuses_truncate" BEFORE TRUNCATE ON "garment_order" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "share_link_refuses_truncate" BEFORE TRUNCATE ON "share_link" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
