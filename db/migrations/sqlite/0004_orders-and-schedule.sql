CREATE TABLE `calendar_feed` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text,
	`token_hash` text NOT NULL,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	`withdrawn_at` integer,
	`withdrawn_by` text,
	`last_read_at` integer,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `calendar_feed_token` ON `calendar_feed` (`token_hash`);--> statement-breakpoint
CREATE INDEX `calendar_feed_clinic` ON `calendar_feed` (`clinic_id`);--> statement-breakpoint
CREATE TABLE `caution_answer` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`visit_id` text,
	`day` text NOT NULL,
	`card` text NOT NULL,
	`card_version` text NOT NULL,
	`answer` text NOT NULL,
	`figures` text,
	`wording` text NOT NULL,
	`words` text,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`visit_id`) REFERENCES `visit`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `caution_answer_latest` ON `caution_answer` (`patient_id`,`card`,`at`);--> statement-breakpoint
CREATE TABLE `due_date` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`key` text NOT NULL,
	`kind` text NOT NULL,
	`day` text NOT NULL,
	`computed` text NOT NULL,
	`state` text NOT NULL,
	`sequence` integer NOT NULL,
	`changed_at` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `due_date_key` ON `due_date` (`patient_id`,`key`);--> statement-breakpoint
CREATE INDEX `due_date_day` ON `due_date` (`clinic_id`,`state`,`day`);--> statement-breakpoint
CREATE TABLE `garment_order` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`number` integer NOT NULL,
	`state` text NOT NULL,
	`revision` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `garment_order_number` ON `garment_order` (`patient_id`,`number`);--> statement-breakpoint
CREATE INDEX `garment_order_state` ON `garment_order` (`clinic_id`,`state`);--> statement-breakpoint
CREATE TABLE `moved_date` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`key` text NOT NULL,
	`computed` text NOT NULL,
	`day` text NOT NULL,
	`reason` text NOT NULL,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `moved_date_latest` ON `moved_date` (`patient_id`,`key`,`at`);--> statement-breakpoint
CREATE TABLE `order_revision` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`order_id` text NOT NULL,
	`number` integer NOT NULL,
	`cut_from_visit_id` text NOT NULL,
	`content` text NOT NULL,
	`author` text NOT NULL,
	`at` integer NOT NULL,
	`reason` text,
	`submission_id` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`order_id`) REFERENCES `garment_order`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`cut_from_visit_id`) REFERENCES `visit`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `order_revision_number` ON `order_revision` (`order_id`,`number`);--> statement-breakpoint
CREATE UNIQUE INDEX `order_revision_submission` ON `order_revision` (`clinic_id`,`submission_id`);--> statement-breakpoint
CREATE TABLE `patient_coverage` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`rule` text,
	`from` text NOT NULL,
	`note` text,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `patient_coverage_latest` ON `patient_coverage` (`patient_id`,`at`);--> statement-breakpoint
CREATE TABLE `repeat_taping` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`visit_id` text NOT NULL,
	`revision` integer NOT NULL,
	`day` text NOT NULL,
	`pairs` integer NOT NULL,
	`squares_mm2` real NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`visit_id`) REFERENCES `visit`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `repeat_taping_day` ON `repeat_taping` (`clinic_id`,`day`);--> statement-breakpoint
CREATE INDEX `repeat_taping_visit` ON `repeat_taping` (`visit_id`);--> statement-breakpoint
CREATE TABLE `work_count` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`kind` text NOT NULL,
	`due` text NOT NULL,
	`lines` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `work_count_day` ON `work_count` (`clinic_id`,`kind`,`due`);--> statement-breakpoint
CREATE TABLE `work_line` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`key` text NOT NULL,
	`kind` text NOT NULL,
	`due` text NOT NULL,
	`title` text NOT NULL,
	`reason` text NOT NULL,
	`limb` text,
	`prompt` text,
	`first` integer NOT NULL,
	`behind` integer NOT NULL,
	`outline` text,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `work_line_key` ON `work_line` (`patient_id`,`key`);--> statement-breakpoint
CREATE INDEX `work_line_first` ON `work_line` (`clinic_id`,`first`,`due`,`id`);--> statement-breakpoint
CREATE INDEX `work_line_kind` ON `work_line` (`clinic_id`,`kind`,`due`,`id`);--> statement-breakpoint
CREATE TABLE `work_state` (
	`patient_id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`changes` integer NOT NULL,
	`renewed_for` text,
	`basis` text,
	`claimed_until` integer,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `work_state_due` ON `work_state` (`clinic_id`,`renewed_for`);--> statement-breakpoint
DROP INDEX `piece_patient`;--> statement-breakpoint
CREATE UNIQUE INDEX `piece_label` ON `piece` (`patient_id`,`label`);--> statement-breakpoint
ALTER TABLE `piece_revision` ADD `order_id` text;--> statement-breakpoint
ALTER TABLE `piece_revision` ADD `garment` text;--> statement-breakpoint
ALTER TABLE `piece_revision` ADD `expected` text;--> statement-breakpoint
ALTER TABLE `piece_revision` ADD `delivered` text;--> statement-breakpoint
ALTER TABLE `piece_revision` ADD `fit` text;--> statement-breakpoint
ALTER TABLE `piece_revision` ADD `wear_in` text;--> statement-breakpoint
ALTER TABLE `piece_revision` ADD `kept` text;--> statement-breakpoint
ALTER TABLE `piece_revision` ADD `alterations` text;--> statement-breakpoint
ALTER TABLE `piece_revision` ADD `retired_as` text;
--> statement-breakpoint
CREATE TRIGGER `repeat_taping_refuses_update` BEFORE UPDATE ON `repeat_taping` BEGIN SELECT RAISE(ABORT, 'repeat_taping is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `repeat_taping_refuses_delete` BEFORE DELETE ON `repeat_taping` BEGIN SELECT RAISE(ABORT, 'repeat_taping is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `order_revision_refuses_update` BEFORE UPDATE ON `order_revision` BEGIN SELECT RAISE(ABORT, 'order_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `order_revision_refuses_delete` BEFORE DELETE ON `order_revision` BEGIN SELECT RAISE(ABORT, 'order_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `moved_date_refuses_update` BEFORE UPDATE ON `moved_date` BEGIN SELECT RAISE(ABORT, 'moved_date is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `moved_date_refuses_delete` BEFORE DELETE ON `moved_date` BEGIN SELECT RAISE(ABORT, 'moved_date is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `patient_coverage_refuses_update` BEFORE UPDATE ON `patient_coverage` BEGIN SELECT RAISE(ABORT, 'patient_coverage is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `patient_coverage_refuses_delete` BEFORE DELETE ON `patient_coverage` BEGIN SELECT RAISE(ABORT, 'patient_coverage is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `caution_answer_refuses_update` BEFORE UPDATE ON `caution_answer` BEGIN SELECT RAISE(ABORT, 'caution_answer is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `caution_answer_refuses_delete` BEFORE DELETE ON `caution_answer` BEGIN SELECT RAISE(ABORT, 'caution_answer is append-only'); END;
