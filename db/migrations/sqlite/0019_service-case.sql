CREATE TABLE `service_case` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`kind` text NOT NULL,
	`day` text NOT NULL,
	`limb` text NOT NULL,
	`side` text NOT NULL,
	`whole` integer,
	`some` integer,
	`phase` text,
	`lost` integer,
	`kept` integer,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `service_case_clinic` ON `service_case` (`clinic_id`,`kind`,`day`);--> statement-breakpoint
CREATE INDEX `service_case_patient` ON `service_case` (`patient_id`);