CREATE TABLE `audit_head` (
	`clinic_id` text PRIMARY KEY NOT NULL,
	`length` integer NOT NULL,
	`link` text NOT NULL,
	`sealed` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `erasure` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	`reason` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `erasure_patient` ON `erasure` (`patient_id`);--> statement-breakpoint
ALTER TABLE `audit` ADD `number` integer;--> statement-breakpoint
ALTER TABLE `audit` ADD `salt` text;--> statement-breakpoint
ALTER TABLE `audit` ADD `detail_digest` text;--> statement-breakpoint
ALTER TABLE `audit` ADD `link` text;--> statement-breakpoint
ALTER TABLE `audit` ADD `erasure_id` text;--> statement-breakpoint
CREATE UNIQUE INDEX `audit_number` ON `audit` (`clinic_id`,`number`);
--> statement-breakpoint
-- The chain: an audit row takes its link once, and loses its detail only to an erasure of its clinic. Everything else in it stands.
DROP TRIGGER `audit_refuses_update`;
--> statement-breakpoint
CREATE TRIGGER `audit_refuses_update` BEFORE UPDATE ON `audit` WHEN NOT (
  NEW.id IS OLD.id AND NEW.clinic_id IS OLD.clinic_id AND NEW.at IS OLD.at AND NEW.who IS OLD.who AND NEW.action IS OLD.action AND NEW.subject_kind IS OLD.subject_kind AND NEW.subject_id IS OLD.subject_id AND (
    (OLD.link IS NULL AND NEW.detail IS OLD.detail AND NEW.erasure_id IS NULL)
    OR (NEW.number IS OLD.number AND NEW.detail_digest IS OLD.detail_digest AND NEW.link IS OLD.link AND NEW.detail IS NULL AND NEW.salt IS NULL AND OLD.erasure_id IS NULL
      AND EXISTS (SELECT 1 FROM erasure WHERE id = NEW.erasure_id AND clinic_id = OLD.clinic_id))
  )
) BEGIN SELECT RAISE(ABORT, 'audit is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `audit_head_refuses_delete` BEFORE DELETE ON `audit_head` BEGIN SELECT RAISE(ABORT, 'audit_head is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `erasure_refuses_update` BEFORE UPDATE ON `erasure` BEGIN SELECT RAISE(ABORT, 'erasure is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `erasure_refuses_delete` BEFORE DELETE ON `erasure` BEGIN SELECT RAISE(ABORT, 'erasure is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `patient_refuses_delete` BEFORE DELETE ON `patient` BEGIN SELECT RAISE(ABORT, 'patient is append-only'); END;
--> statement-breakpoint
-- Content of a patient goes only when an erasure names that patient; heads never change whose they are.
CREATE TRIGGER `patient_keeps_owner` BEFORE UPDATE OF `clinic_id` ON `patient` BEGIN SELECT RAISE(ABORT, 'patient is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `visit_keeps_owner` BEFORE UPDATE OF `patient_id`, `clinic_id` ON `visit` BEGIN SELECT RAISE(ABORT, 'visit is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `piece_keeps_owner` BEFORE UPDATE OF `patient_id`, `clinic_id` ON `piece` BEGIN SELECT RAISE(ABORT, 'piece is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `garment_order_keeps_owner` BEFORE UPDATE OF `patient_id`, `clinic_id` ON `garment_order` BEGIN SELECT RAISE(ABORT, 'garment_order is append-only'); END;
--> statement-breakpoint
DROP TRIGGER `patient_revision_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `patient_event_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `prompt_answer_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `caution_answer_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `moved_date_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `patient_coverage_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `issued_document_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `visit_revision_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `repeat_taping_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `ladder_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `piece_revision_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `order_revision_refuses_delete`;
--> statement-breakpoint
DROP TRIGGER `share_opening_refuses_delete`;
--> statement-breakpoint
CREATE TRIGGER `patient_revision_refuses_delete` BEFORE DELETE ON `patient_revision` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'patient_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `patient_event_refuses_delete` BEFORE DELETE ON `patient_event` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'patient_event is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `prompt_answer_refuses_delete` BEFORE DELETE ON `prompt_answer` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'prompt_answer is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `caution_answer_refuses_delete` BEFORE DELETE ON `caution_answer` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'caution_answer is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `moved_date_refuses_delete` BEFORE DELETE ON `moved_date` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'moved_date is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `patient_coverage_refuses_delete` BEFORE DELETE ON `patient_coverage` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'patient_coverage is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `issued_document_refuses_delete` BEFORE DELETE ON `issued_document` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'issued_document is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `visit_revision_refuses_delete` BEFORE DELETE ON `visit_revision` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = (SELECT patient_id FROM visit WHERE id = OLD.visit_id)) BEGIN SELECT RAISE(ABORT, 'visit_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `repeat_taping_refuses_delete` BEFORE DELETE ON `repeat_taping` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = (SELECT patient_id FROM visit WHERE id = OLD.visit_id)) BEGIN SELECT RAISE(ABORT, 'repeat_taping is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `ladder_refuses_delete` BEFORE DELETE ON `ladder` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = (SELECT patient_id FROM visit WHERE id = (SELECT visit_id FROM visit_revision WHERE id = OLD.visit_revision_id))) BEGIN SELECT RAISE(ABORT, 'ladder is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `piece_revision_refuses_delete` BEFORE DELETE ON `piece_revision` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = (SELECT patient_id FROM piece WHERE id = OLD.piece_id)) BEGIN SELECT RAISE(ABORT, 'piece_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `order_revision_refuses_delete` BEFORE DELETE ON `order_revision` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = (SELECT patient_id FROM garment_order WHERE id = OLD.order_id)) BEGIN SELECT RAISE(ABORT, 'order_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `share_opening_refuses_delete` BEFORE DELETE ON `share_opening` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = (SELECT patient_id FROM issued_document WHERE id = (SELECT document_id FROM share_link WHERE id = OLD.link_id))) BEGIN SELECT RAISE(ABORT, 'share_opening is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `visit_refuses_delete` BEFORE DELETE ON `visit` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'visit is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `piece_refuses_delete` BEFORE DELETE ON `piece` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'piece is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `garment_order_refuses_delete` BEFORE DELETE ON `garment_order` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'garment_order is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `share_link_refuses_delete` BEFORE DELETE ON `share_link` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = (SELECT patient_id FROM issued_document WHERE id = OLD.document_id)) BEGIN SELECT RAISE(ABORT, 'share_link is append-only'); END;
