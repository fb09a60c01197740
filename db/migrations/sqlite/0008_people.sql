CREATE TABLE `counted_try` (
	`id` text PRIMARY KEY NOT NULL,
	`whose` text NOT NULL,
	`at` integer NOT NULL
);
--> statement-breakpoint
CREATE INDEX `counted_try_whose` ON `counted_try` (`whose`,`at`);--> statement-breakpoint
CREATE TABLE `one_time_link` (
	`id` text PRIMARY KEY NOT NULL,
	`token_hash` text NOT NULL,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	`expires_at` integer NOT NULL,
	`used_at` integer,
	FOREIGN KEY (`id`) REFERENCES `user`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE UNIQUE INDEX `one_time_link_token` ON `one_time_link` (`token_hash`);--> statement-breakpoint
CREATE TABLE `recovery_code` (
	`id` text PRIMARY KEY NOT NULL,
	`user_id` text NOT NULL,
	`code_hash` text NOT NULL,
	`used_at` integer,
	FOREIGN KEY (`user_id`) REFERENCES `user`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE UNIQUE INDEX `recovery_code_of` ON `recovery_code` (`user_id`,`code_hash`);--> statement-breakpoint
CREATE TABLE `second_factor` (
	`id` text PRIMARY KEY NOT NULL,
	`sealed_secret` text NOT NULL,
	`last_step` integer NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`id`) REFERENCES `user`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
ALTER TABLE `account` ADD `needs_second_factor` integer;--> statement-breakpoint
ALTER TABLE `session` ADD `last_used_at` integer;--> statement-breakpoint
ALTER TABLE `user` ADD `disabled_at` integer;--> statement-breakpoint
ALTER TABLE `user` ADD `access_from` integer;--> statement-breakpoint
ALTER TABLE `user` ADD `last_signed_in_at` integer;