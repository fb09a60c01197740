CREATE TABLE "counted_try" (
	"id" text PRIMARY KEY NOT NULL,
	"whose" text NOT NULL,
	"at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "one_time_link" (
	"id" text PRIMARY KEY NOT NULL,
	"token_hash" text NOT NULL,
	"by" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"expires_at" timestamp with time zone NOT NULL,
	"used_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "recovery_code" (
	"id" text PRIMARY KEY NOT NULL,
	"user_id" text NOT NULL,
	"code_hash" text NOT NULL,
	"used_at" timestamp with time zone
);
--> statement-breakpoint
CREATE TABLE "second_factor" (
	"id" text PRIMARY KEY NOT NULL,
	"sealed_secret" text NOT NULL,
	"last_step" bigint NOT NULL,
	"at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
ALTER TABLE "account" ADD COLUMN "needs_second_factor" boolean;--> statement-breakpoint
ALTER TABLE "session" ADD COLUMN "last_used_at" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "user" ADD COLUMN "disabled_at" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "user" ADD COLUMN "access_from" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "user" ADD COLUMN "last_signed_in_at" timestamp with time zone;--> statement-breakpoint
ALTER TABLE "one_time_link" ADD CONSTRAINT "one_time_link_id_user_id_fk" FOREIGN KEY ("id") REFERENCES "public"."user"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recovery_code" ADD CONSTRAINT "recovery_code_user_id_user_id_fk" FOREIGN KEY ("user_id") REFERENCES "public"."user"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "second_factor" ADD CONSTRAINT "second_factor_id_user_id_fk" FOREIGN KEY ("id") REFERENCES "public"."user"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "counted_try_whose" ON "counted_try" USING btree ("whose","at");--> statement-breakpoint
CREATE UNIQUE INDEX "one_time_link_token" ON "one_time_link" USING btree ("token_hash");--> statement-breakpoint
CREATE UNIQUE INDEX "recovery_code_of" ON "recovery_code" USING btree ("user_id","code_hash");