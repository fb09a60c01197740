CREATE TABLE `course_revision` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`number` integer NOT NULL,
	`phases` text NOT NULL,
	`died_on` text,
	`author` text NOT NULL,
	`at` integer NOT NULL,
	`reason` text,
	`submission_id` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `course_revision_number` ON `course_revision` (`patient_id`,`number`);--> statement-breakpoint
CREATE UNIQUE INDEX `course_revision_submission` ON `course_revision` (`clinic_id`,`submission_id`);
--> statement-breakpoint
-- Writings of a course of care never change, and go only when an erasure names their patient.
CREATE TRIGGER `course_revision_refuses_update` BEFORE UPDATE ON `course_revision` BEGIN SELECT RAISE(ABORT, 'course_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `course_revision_refuses_delete` BEFORE DELETE ON `course_revision` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'course_revision is append-only'); END;
