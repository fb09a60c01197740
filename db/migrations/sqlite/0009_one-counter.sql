DROP TABLE `rate_limit`;--> statement-breakpoint
DROP TABLE `sign_in_failure`;