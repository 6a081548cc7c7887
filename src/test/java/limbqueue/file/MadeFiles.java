package limbqueue.file;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.encryption.AccessPermission;
import org.apache.pdfbox.pdmodel.encryption.StandardProtectionPolicy;
import org.apache.pdfbox.pdmodel.font.PDType1Font;
import org.apache.pdfbox.pdmodel.font.Standard14Fonts;
import org.apache.pdfbox.pdmodel.graphics.image.LosslessFactory;

/** Files as people drop them, made on the spot. Word documents are put together by hand from ECMA-376, part 1. */
public final class MadeFiles {

    private static final String WORD = "http://schemas.openxmlformats.org/wordprocessingml/2006/main";
    private static final String RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships";
    private static final String OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/";
    private static final String TYPES = "http://schemas.openxmlformats.org/package/2006/content-types";
    private static final String MAIN_TYPE =
            "application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml";

    private MadeFiles() {}

    public static byte[] pdf(String... lines) {
        return pdf(document -> {
            var page = new PDPage();
            document.addPage(page);
            try (var content = new PDPageContentStream(document, page)) {
                content.beginText();
                content.setFont(new PDType1Font(Standard14Fonts.FontName.HELVETICA), 11);
                content.newLineAtOffset(72, 700);
                for (var line : lines) {
                    content.showText(line);
                    content.newLineAtOffset(0, -16);
                }
                content.endText();
            }
        });
    }

    /** A page that is a picture of grey stripes. */
    public static byte[] scan(int pages) {
        return pdf(document -> {
            for (var i = 0; i < pages; i++) {
                addScannedPage(document);
            }
        });
    }

    static void addScannedPage(PDDocument document) throws IOException {
        var page = new PDPage();
        document.addPage(page);
        var image = LosslessFactory.createFromImage(document, stripes(200, 280));
        try (var content = new PDPageContentStream(document, page)) {
            content.drawImage(image, 50, 50, 500, 700);
        }
    }

    static byte[] encryptedPdf(String password) {
        return pdf(document -> {
            document.addPage(new PDPage());
            document.protect(new StandardProtectionPolicy("owner", password, new AccessPermission()));
        });
    }

    interface Fill {
        void fill(PDDocument document) throws IOException;
    }

    static byte[] pdf(Fill fill) {
        try (var document = new PDDocument()) {
            fill.fill(document);
            var bytes = new ByteArrayOutputStream();
            document.save(bytes);
            return bytes.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public static byte[] docx(String... paragraphs) {
        return docxOf(List.of(paragraphs).stream()
                .map(words -> "<w:p><w:r><w:t xml:space=\"preserve\">" + escaped(words) + "</w:t></w:r></w:p>")
                .collect(Collectors.joining()));
    }

    static String escaped(String words) {
        return words.replace("&", "&amp;").replace("<", "&lt;");
    }

    /** A Word document with this body. */
    static byte[] docxOf(String body) {
        return zip(docxParts(body, MAIN_TYPE));
    }

    static Map<String, byte[]> docxParts(String body, String mainType) {
        var parts = new LinkedHashMap<String, byte[]>();
        parts.put(
                "[Content_Types].xml",
                bytes("<?xml version=\"1.0\" encoding=\"UTF-8\"?><Types xmlns=\"" + TYPES
                        + "\"><Default Extension=\"rels\" "
                        + "ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
                        + "<Override PartName=\"/word/document.xml\" ContentType=\"" + mainType + "\"/></Types>"));
        parts.put("_rels/.rels", relations("officeDocument", "word/document.xml"));
        parts.put("word/document.xml", wordPart("document", "<w:body>" + body + "</w:body>"));
        return parts;
    }

    static byte[] wordPart(String root, String content) {
        return bytes("<?xml version=\"1.0\" encoding=\"UTF-8\"?><w:" + root + " xmlns:w=\"" + WORD
                + "\" xmlns:mc=\"http://schemas.openxmlformats.org/markup-compatibility/2006\">" + content + "</w:"
                + root
                + ">");
    }

    /** Relations, each given as its kind and its target. */
    static byte[] relations(String... kindsAndTargets) {
        var all = new StringBuilder("<Relationships xmlns=\"" + RELATIONS + "\">");
        for (var i = 0; i < kindsAndTargets.length; i += 2) {
            all.append("<Relationship Id=\"r%d\" Type=\"%s%s\" Target=\"%s\"/>"
                    .formatted(i, OFFICE, kindsAndTargets[i], kindsAndTargets[i + 1]));
        }
        return bytes(all.append("</Relationships>").toString());
    }

    static byte[] zip(Map<String, byte[]> parts) {
        return zipped(zip -> {
            for (var part : parts.entrySet()) {
                zip.putNextEntry(new ZipEntry(part.getKey()));
                zip.write(part.getValue());
            }
        });
    }

    /** A Word document of a few hundred kB whose picture comes to {@code megabytes}. */
    public static byte[] docxBomb(int megabytes) {
        return zipped(zip -> {
            for (var part : docxParts("<w:p><w:r><w:t>Dear colleague</w:t></w:r></w:p>", MAIN_TYPE)
                    .entrySet()) {
                zip.putNextEntry(new ZipEntry(part.getKey()));
                zip.write(part.getValue());
            }
            zip.putNextEntry(new ZipEntry("word/media/image1.png"));
            var nothing = new byte[1 << 20];
            for (var i = 0; i < megabytes; i++) {
                zip.write(nothing);
            }
        });
    }

    private interface Pack {
        void pack(ZipOutputStream zip) throws IOException;
    }

    private static byte[] zipped(Pack pack) {
        var bytes = new ByteArrayOutputStream();
        try (var zip = new ZipOutputStream(bytes)) {
            pack.pack(zip);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    public static byte[] picture(String format) {
        var bytes = new ByteArrayOutputStream();
        try {
            if (!ImageIO.write(stripes(200, 280), format, bytes)) {
                throw new IllegalArgumentException("no writer for " + format);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    private static BufferedImage stripes(int width, int height) {
        var image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        var graphics = image.createGraphics();
        graphics.setColor(Color.WHITE);
        graphics.fillRect(0, 0, width, height);
        graphics.setColor(Color.GRAY);
        for (var y = 10; y < height; y += 20) {
            graphics.fillRect(10, y, width - 20, 6);
        }
        graphics.dispose();
        return image;
    }

    /**
     * Puts a program named {@code tesseract} into {@code folder} that is a shell script, and stands in for the real
     * one.
     */
    static String standIn(Path folder, String script) {
        try (OutputStream out = Files.newOutputStream(folder.resolve("tesseract"))) {
            out.write(bytes("#!/bin/sh\n" + script + "\n"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        try {
            Files.setPosixFilePermissions(folder.resolve("tesseract"), PosixFilePermissions.fromString("rwxr-xr-x"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return folder.toString();
    }

    static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }
}
