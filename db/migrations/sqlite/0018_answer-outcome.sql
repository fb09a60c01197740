CREATE TABLE `answer_outcome` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`given_id` text NOT NULL,
	`kind` text NOT NULL,
	`day` text NOT NULL,
	`limb` text NOT NULL,
	`side` text NOT NULL,
	`came` text NOT NULL,
	`against` text,
	`word` text,
	`probability` real,
	`tenth` integer,
	`changed` integer,
	`miss` integer,
	`piece` text,
	`early_kept` integer,
	`days_off` integer,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`given_id`) REFERENCES `given_answer`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `answer_outcome_clinic` ON `answer_outcome` (`clinic_id`,`kind`,`day`);--> statement-breakpoint
CREATE INDEX `answer_outcome_patient` ON `answer_outcome` (`patient_id`);