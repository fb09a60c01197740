CREATE TABLE `account` (
	`id` text PRIMARY KEY NOT NULL,
	`user_id` text NOT NULL,
	`account_id` text NOT NULL,
	`provider_id` text NOT NULL,
	`access_token` text,
	`refresh_token` text,
	`id_token` text,
	`access_token_expires_at` integer,
	`refresh_token_expires_at` integer,
	`scope` text,
	`password` text,
	`created_at` integer NOT NULL,
	`updated_at` integer NOT NULL,
	FOREIGN KEY (`user_id`) REFERENCES `user`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `account_user` ON `account` (`user_id`);--> statement-breakpoint
CREATE TABLE `audit` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`at` integer NOT NULL,
	`who` text NOT NULL,
	`action` text NOT NULL,
	`subject_kind` text NOT NULL,
	`subject_id` text NOT NULL,
	`detail` text,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `audit_when` ON `audit` (`clinic_id`,`at`);--> statement-breakpoint
CREATE INDEX `audit_subject` ON `audit` (`subject_kind`,`subject_id`);--> statement-breakpoint
CREATE TABLE `clinic` (
	`id` text PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`subtitle` text NOT NULL,
	`length_unit` text NOT NULL,
	`mass_unit` text NOT NULL,
	`time_zone` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `clinic_setting` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`key` text NOT NULL,
	`value` text,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	`reason` text,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `clinic_setting_latest` ON `clinic_setting` (`clinic_id`,`key`,`at`);--> statement-breakpoint
CREATE TABLE `draft` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`author` text NOT NULL,
	`kind` text NOT NULL,
	`content` text NOT NULL,
	`version` integer NOT NULL,
	`updated_at` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `draft_of` ON `draft` (`clinic_id`,`patient_id`,`author`,`kind`);--> statement-breakpoint
CREATE TABLE `ladder` (
	`id` text PRIMARY KEY NOT NULL,
	`visit_revision_id` text NOT NULL,
	`position` integer NOT NULL,
	`limb` text NOT NULL,
	`side` text NOT NULL,
	`zero` text NOT NULL,
	`direction` text NOT NULL,
	`unit` text NOT NULL,
	`interval_text` text,
	`rungs` text NOT NULL,
	`landmarks` text NOT NULL,
	`floor_to_fold` text,
	FOREIGN KEY (`visit_revision_id`) REFERENCES `visit_revision`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `ladder_place` ON `ladder` (`visit_revision_id`,`position`);--> statement-breakpoint
CREATE TABLE `patient` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`revision` integer NOT NULL,
	`reference_key` text NOT NULL,
	`search_text` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `patient_reference` ON `patient` (`clinic_id`,`reference_key`);--> statement-breakpoint
CREATE INDEX `patient_search` ON `patient` (`clinic_id`,`search_text`,`reference_key`,`id`);--> statement-breakpoint
CREATE TABLE `patient_event` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`day` text NOT NULL,
	`kind` text NOT NULL,
	`words` text NOT NULL,
	`withdraws` text,
	`author` text NOT NULL,
	`at` integer NOT NULL,
	`reason` text,
	`submission_id` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `patient_event_day` ON `patient_event` (`patient_id`,`day`);--> statement-breakpoint
CREATE UNIQUE INDEX `patient_event_submission` ON `patient_event` (`clinic_id`,`submission_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `patient_event_withdrawn` ON `patient_event` (`withdraws`);--> statement-breakpoint
CREATE TABLE `patient_revision` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`number` integer NOT NULL,
	`reference` text NOT NULL,
	`name` text,
	`born` text NOT NULL,
	`sex` text NOT NULL,
	`diagnosis_group` text NOT NULL,
	`affected` text NOT NULL,
	`language` text NOT NULL,
	`note` text,
	`author` text NOT NULL,
	`at` integer NOT NULL,
	`reason` text,
	`submission_id` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `patient_revision_number` ON `patient_revision` (`patient_id`,`number`);--> statement-breakpoint
CREATE UNIQUE INDEX `patient_revision_submission` ON `patient_revision` (`clinic_id`,`submission_id`);--> statement-breakpoint
CREATE TABLE `piece` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`label` text NOT NULL,
	`revision` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `piece_patient` ON `piece` (`patient_id`);--> statement-breakpoint
CREATE INDEX `piece_clinic` ON `piece` (`clinic_id`);--> statement-breakpoint
CREATE TABLE `piece_revision` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`piece_id` text NOT NULL,
	`number` integer NOT NULL,
	`label` text NOT NULL,
	`limb` text NOT NULL,
	`side` text NOT NULL,
	`covers` text NOT NULL,
	`cut_from_visit_id` text,
	`cut_from` text NOT NULL,
	`reduction_pct` real NOT NULL,
	`convention` text NOT NULL,
	`allowance` text,
	`first_fit` text,
	`first_worn` text,
	`life_days` integer NOT NULL,
	`lead_days` integer NOT NULL,
	`retired` text,
	`retired_reason` text,
	`author` text NOT NULL,
	`at` integer NOT NULL,
	`reason` text,
	`submission_id` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`piece_id`) REFERENCES `piece`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`cut_from_visit_id`) REFERENCES `visit`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `piece_revision_number` ON `piece_revision` (`piece_id`,`number`);--> statement-breakpoint
CREATE UNIQUE INDEX `piece_revision_submission` ON `piece_revision` (`clinic_id`,`submission_id`);--> statement-breakpoint
CREATE TABLE `prompt_answer` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`prompt_key` text NOT NULL,
	`rule` text NOT NULL,
	`rule_version` text NOT NULL,
	`inputs_hash` text NOT NULL,
	`inputs` text NOT NULL,
	`answer` text NOT NULL,
	`until` text,
	`reason` text,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `prompt_answer_latest` ON `prompt_answer` (`patient_id`,`prompt_key`,`at`);--> statement-breakpoint
CREATE TABLE `rate_limit` (
	`id` text PRIMARY KEY NOT NULL,
	`key` text NOT NULL,
	`count` integer NOT NULL,
	`last_request` integer NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `rate_limit_key` ON `rate_limit` (`key`);--> statement-breakpoint
CREATE TABLE `session` (
	`id` text PRIMARY KEY NOT NULL,
	`user_id` text NOT NULL,
	`token` text NOT NULL,
	`expires_at` integer NOT NULL,
	`ip_address` text,
	`user_agent` text,
	`created_at` integer NOT NULL,
	`updated_at` integer NOT NULL,
	FOREIGN KEY (`user_id`) REFERENCES `user`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE UNIQUE INDEX `session_token` ON `session` (`token`);--> statement-breakpoint
CREATE INDEX `session_user` ON `session` (`user_id`);--> statement-breakpoint
CREATE TABLE `sign_in_failure` (
	`id` text PRIMARY KEY NOT NULL,
	`email_hash` text NOT NULL,
	`at` integer NOT NULL
);
--> statement-breakpoint
CREATE INDEX `sign_in_failure_email` ON `sign_in_failure` (`email_hash`,`at`);--> statement-breakpoint
CREATE TABLE `user` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`role` text NOT NULL,
	`name` text NOT NULL,
	`email` text NOT NULL,
	`email_verified` integer NOT NULL,
	`image` text,
	`created_at` integer NOT NULL,
	`updated_at` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `user_email` ON `user` (`email`);--> statement-breakpoint
CREATE INDEX `user_clinic` ON `user` (`clinic_id`);--> statement-breakpoint
CREATE TABLE `verification` (
	`id` text PRIMARY KEY NOT NULL,
	`identifier` text NOT NULL,
	`value` text NOT NULL,
	`expires_at` integer NOT NULL,
	`created_at` integer NOT NULL,
	`updated_at` integer NOT NULL
);
--> statement-breakpoint
CREATE INDEX `verification_identifier` ON `verification` (`identifier`);--> statement-breakpoint
CREATE TABLE `visit` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`day` text NOT NULL,
	`revision` integer NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `visit_patient_day` ON `visit` (`patient_id`,`day`);--> statement-breakpoint
CREATE TABLE `visit_revision` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`visit_id` text NOT NULL,
	`number` integer NOT NULL,
	`day` text NOT NULL,
	`time` text,
	`posture` text,
	`measurer` text,
	`height` text,
	`weight` text,
	`note` text,
	`author` text NOT NULL,
	`at` integer NOT NULL,
	`reason` text,
	`submission_id` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`visit_id`) REFERENCES `visit`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `visit_revision_number` ON `visit_revision` (`visit_id`,`number`);--> statement-breakpoint
CREATE UNIQUE INDEX `visit_revision_submission` ON `visit_revision` (`clinic_id`,`submission_id`);