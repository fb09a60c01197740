ALTER TABLE "audit" ADD COLUMN "contents" jsonb;
--> statement-breakpoint
-- What a deed says of the rows it wrote stands, also when an erasure takes its detail.
CREATE OR REPLACE FUNCTION refuse_audit_change() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
  IF NEW.id IS NOT DISTINCT FROM OLD.id AND NEW.clinic_id IS NOT DISTINCT FROM OLD.clinic_id AND NEW.at IS NOT DISTINCT FROM OLD.at AND NEW.who IS NOT DISTINCT FROM OLD.who AND NEW.action IS NOT DISTINCT FROM OLD.action AND NEW.subject_kind IS NOT DISTINCT FROM OLD.subject_kind AND NEW.subject_id IS NOT DISTINCT FROM OLD.subject_id AND NEW.contents IS NOT DISTINCT FROM OLD.contents AND (
    (OLD.link IS NULL AND NEW.detail IS NOT DISTINCT FROM OLD.detail AND NEW.erasure_id IS NULL)
    OR (NEW.number IS NOT DISTINCT FROM OLD.number AND NEW.detail_digest IS NOT DISTINCT FROM OLD.detail_digest AND NEW.link IS NOT DISTINCT FROM OLD.link AND NEW.detail IS NULL AND NEW.salt IS NULL AND OLD.erasure_id IS NULL
      AND EXISTS (SELECT 1 FROM erasure WHERE id = NEW.erasure_id AND clinic_id = OLD.clinic_id))
  ) THEN RETURN NEW; END IF;
  RAISE EXCEPTION 'audit is append-only';
END $$;
