-- CreateTable
CREATE TABLE "PhotoLook" (
    "file" TEXT NOT NULL,
    "widthPx" INTEGER NOT NULL,
    "heightPx" INTEGER NOT NULL,
    "blurBase64" TEXT NOT NULL,

    CONSTRAINT "PhotoLook_pkey" PRIMARY KEY ("file"),
    CONSTRAINT "PhotoLook_shape_check" CHECK ("widthPx" > 0 AND "heightPx" > 0),
    CONSTRAINT "PhotoLook_blur_check" CHECK (length("blurBase64") BETWEEN 1 AND 4000)
);
