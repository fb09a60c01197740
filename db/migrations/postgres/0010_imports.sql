CREATE TABLE "data_import" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"by" text NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"file_name" text NOT NULL,
	"form" text NOT NULL,
	"text" text,
	"mapping" jsonb,
	"state" text NOT NULL
);
--> statement-breakpoint
CREATE TABLE "import_item" (
	"id" text PRIMARY KEY NOT NULL,
	"clinic_id" text NOT NULL,
	"import_id" text NOT NULL,
	"position" integer NOT NULL,
	"state" text NOT NULL,
	"reference" text,
	"content" jsonb,
	"patient_id" text,
	"added" jsonb,
	"words" text
);
--> statement-breakpoint
ALTER TABLE "data_import" ADD CONSTRAINT "data_import_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "import_item" ADD CONSTRAINT "import_item_clinic_id_clinic_id_fk" FOREIGN KEY ("clinic_id") REFERENCES "public"."clinic"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "import_item" ADD CONSTRAINT "import_item_import_id_data_import_id_fk" FOREIGN KEY ("import_id") REFERENCES "public"."data_import"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "import_item" ADD CONSTRAINT "import_item_patient_id_patient_id_fk" FOREIGN KEY ("patient_id") REFERENCES "public"."patient"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "data_import_when" ON "data_import" USING btree ("clinic_id","at");--> statement-breakpoint
CREATE UNIQUE INDEX "import_item_position" ON "import_item" USING btree ("import_id","position");--> statement-breakpoint
CREATE INDEX "import_item_patient" ON "import_item" USING btree ("patient_id");