CREATE TABLE `study_draft` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`study_id` text NOT NULL,
	`thing` text NOT NULL,
	`content` text NOT NULL,
	`updated_at` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `study_draft_of` ON `study_draft` (`study_id`,`thing`);--> statement-breakpoint
CREATE TABLE `study_revision` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`study_id` text NOT NULL,
	`thing` text NOT NULL,
	`number` integer NOT NULL,
	`content` text NOT NULL,
	`author` text NOT NULL,
	`at` integer NOT NULL,
	`reason` text,
	`submission_id` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `study_revision_number` ON `study_revision` (`study_id`,`thing`,`number`);--> statement-breakpoint
CREATE UNIQUE INDEX `study_revision_submission` ON `study_revision` (`clinic_id`,`submission_id`);--> statement-breakpoint
CREATE INDEX `study_revision_thing` ON `study_revision` (`clinic_id`,`thing`);
--> statement-breakpoint
-- States of a study never change and never go: no patient is in it.
CREATE TRIGGER `study_revision_refuses_update` BEFORE UPDATE ON `study_revision` BEGIN SELECT RAISE(ABORT, 'study_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `study_revision_refuses_delete` BEFORE DELETE ON `study_revision` BEGIN SELECT RAISE(ABORT, 'study_revision is append-only'); END;
