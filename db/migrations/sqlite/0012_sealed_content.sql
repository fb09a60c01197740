ALTER TABLE `audit` ADD `contents` text;
--> statement-breakpoint
-- What a deed says of the rows it wrote stands, also when an erasure takes its detail.
DROP TRIGGER `audit_refuses_update`;
--> statement-breakpoint
CREATE TRIGGER `audit_refuses_update` BEFORE UPDATE ON `audit` WHEN NOT (
  NEW.id IS OLD.id AND NEW.clinic_id IS OLD.clinic_id AND NEW.at IS OLD.at AND NEW.who IS OLD.who AND NEW.action IS OLD.action AND NEW.subject_kind IS OLD.subject_kind AND NEW.subject_id IS OLD.subject_id AND NEW.contents IS OLD.contents AND (
    (OLD.link IS NULL AND NEW.detail IS OLD.detail AND NEW.erasure_id IS NULL)
    OR (NEW.number IS OLD.number AND NEW.detail_digest IS OLD.detail_digest AND NEW.link IS OLD.link AND NEW.detail IS NULL AND NEW.salt IS NULL AND OLD.erasure_id IS NULL
      AND EXISTS (SELECT 1 FROM erasure WHERE id = NEW.erasure_id AND clinic_id = OLD.clinic_id))
  )
) BEGIN SELECT RAISE(ABORT, 'audit is append-only'); END;
