CREATE TABLE `data_import` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	`file_name` text NOT NULL,
	`form` text NOT NULL,
	`text` text,
	`mapping` text,
	`state` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `data_import_when` ON `data_import` (`clinic_id`,`at`);--> statement-breakpoint
CREATE TABLE `import_item` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`import_id` text NOT NULL,
	`position` integer NOT NULL,
	`state` text NOT NULL,
	`reference` text,
	`content` text,
	`patient_id` text,
	`added` text,
	`words` text,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`import_id`) REFERENCES `data_import`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `import_item_position` ON `import_item` (`import_id`,`position`);--> statement-breakpoint
CREATE INDEX `import_item_patient` ON `import_item` (`patient_id`);