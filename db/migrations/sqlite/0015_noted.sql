CREATE TABLE `noted_revision` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`kind` text NOT NULL,
	`thing` text NOT NULL,
	`number` integer NOT NULL,
	`day` text,
	`content` text,
	`author` text NOT NULL,
	`at` integer NOT NULL,
	`reason` text,
	`submission_id` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `noted_revision_number` ON `noted_revision` (`kind`,`thing`,`number`);--> statement-breakpoint
CREATE UNIQUE INDEX `noted_revision_submission` ON `noted_revision` (`clinic_id`,`submission_id`);--> statement-breakpoint
CREATE INDEX `noted_revision_patient` ON `noted_revision` (`patient_id`,`kind`);--> statement-breakpoint
CREATE INDEX `noted_revision_day` ON `noted_revision` (`clinic_id`,`kind`,`day`);
--> statement-breakpoint
-- States of noted things never change, and go only when an erasure names their patient.
CREATE TRIGGER `noted_revision_refuses_update` BEFORE UPDATE ON `noted_revision` BEGIN SELECT RAISE(ABORT, 'noted_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `noted_revision_refuses_delete` BEFORE DELETE ON `noted_revision` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'noted_revision is append-only'); END;
