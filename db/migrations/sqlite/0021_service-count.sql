CREATE TABLE `service_count` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`figure` text NOT NULL,
	`at` text NOT NULL,
	`of` text NOT NULL,
	`sum0` real NOT NULL,
	`sum1` real NOT NULL,
	`sum2` real NOT NULL,
	`sum3` real NOT NULL,
	`sum4` real NOT NULL,
	`sum5` real NOT NULL,
	`sum6` real NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `service_count_part` ON `service_count` (`clinic_id`,`figure`,`at`,`of`);--> statement-breakpoint
CREATE TABLE `service_part` (
	`patient_id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`parts` text NOT NULL,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
ALTER TABLE `work_state` ADD `counted` integer DEFAULT false NOT NULL;--> statement-breakpoint
CREATE INDEX `work_state_counted` ON `work_state` (`clinic_id`,`counted`);