package limbqueue.file;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * The text of a Word document: the head of the page, the body with its tables and text boxes, the notes, the foot of
 * the
 * page. Deleted and hidden words are left out. The parts are as in ECMA-376, part 1, clause 11.
 */
final class WordText {

    /** What all parts together may come to when unpacked, in bytes. */
    static final long LARGEST_UNPACKED = 200L << 20;

    /** What one part with words may come to, in bytes. */
    private static final int LARGEST_PART = 40 << 20;

    private static final int MOST_PARTS = 5_000;

    private static final String CONTENT_TYPES = "[Content_Types].xml";
    private static final String ROOT_RELATIONS = "_rels/.rels";
    private static final String WORD_NAMESPACE = "wordprocessingml";
    private static final Set<String> UNSEEN = Set.of("del", "moveFrom", "Fallback", "instrText", "delText");

    private static final String DAMAGED =
            "The Word document is damaged and cannot be opened. Open it in Word, save it anew"
                    + " or as PDF, and drop that; or ask the sender for it again.";

    private WordText() {}

    /** @throws UnfitFile unless this is a sound Word document without programs */
    static void check(byte[] bytes) throws UnfitFile {
        mainPart(partsOf(bytes));
    }

    static String of(byte[] bytes) throws UnfitFile {
        var parts = partsOf(bytes);
        var main = mainPart(parts);
        var related = relationsOf(main, parts);
        var text = new StringBuilder();
        heads(related, "header", parts).forEach(head -> text.append(head).append('\n'));
        text.append(wordsOf(part(main, parts)));
        for (var kind : List.of("footnotes", "endnotes", "footer")) {
            heads(related, kind, parts).forEach(foot -> text.append('\n').append(foot));
        }
        return text.toString();
    }

    /**
     * The different texts of the parts of this kind, in the order of the document; what is damaged in them is left out.
     */
    private static Set<String> heads(List<Relation> related, String kind, Map<String, byte[]> parts) {
        var texts = new LinkedHashSet<String>();
        for (var relation : related) {
            var content = parts.get(relation.target());
            if (relation.type().endsWith("/" + kind) && content != null) {
                try {
                    var words = wordsOf(content);
                    if (!words.isBlank()) {
                        texts.add(words);
                    }
                } catch (UnfitFile damaged) {
                    // The letter itself can be whole.
                }
            }
        }
        return texts;
    }

    private static Map<String, byte[]> partsOf(byte[] bytes) throws UnfitFile {
        var parts = new HashMap<String, byte[]>();
        var left = LARGEST_UNPACKED;
        var count = 0;
        try (var zip = new ZipInputStream(new ByteArrayInputStream(bytes))) {
            for (var entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                if (++count > MOST_PARTS) {
                    throw swells();
                }
                left = unpack(zip, entry, left, parts);
            }
        } catch (IOException | IllegalArgumentException e) {
            if (!parts.containsKey(CONTENT_TYPES) && !startsLikeOffice(parts)) {
                throw new UnfitFile("The file is a damaged archive. Ask the sender for the letter again.", e);
            }
            throw new UnfitFile(DAMAGED, e);
        }
        return parts;
    }

    private static boolean startsLikeOffice(Map<String, byte[]> parts) {
        return parts.keySet().stream().anyMatch(name -> name.startsWith("word/") || name.equals(ROOT_RELATIONS));
    }

    private static long unpack(ZipInputStream zip, ZipEntry entry, long left, Map<String, byte[]> parts)
            throws IOException, UnfitFile {
        var name = entry.getName().startsWith("/") ? entry.getName().substring(1) : entry.getName();
        var wanted = name.endsWith(".xml") || name.endsWith(".rels");
        var kept = new ByteArrayOutputStream();
        var buffer = new byte[16 * 1024];
        for (var read = zip.read(buffer); read >= 0; read = zip.read(buffer)) {
            left -= read;
            if (left < 0 || wanted && kept.size() + read > LARGEST_PART) {
                throw swells();
            }
            if (wanted) {
                kept.write(buffer, 0, read);
            }
        }
        parts.putIfAbsent(name, kept.toByteArray());
        return left;
    }

    private static UnfitFile swells() {
        return new UnfitFile(
                ("The file swells to more than %s when it is unpacked, which no letter does. It was not opened."
                                + " Ask the sender for the letter as PDF.")
                        .formatted(LetterText.inWords(LARGEST_UNPACKED)));
    }

    /** The name of the part with the body. */
    private static String mainPart(Map<String, byte[]> parts) throws UnfitFile {
        if (!parts.containsKey(CONTENT_TYPES)) {
            throw new UnfitFile("This is an archive (zip), not a letter. Unpack it and drop the letter in it.");
        }
        if (parts.keySet().stream().anyMatch(WordText::isProgram)) {
            throw new UnfitFile(
                    "This document holds programs (macros), which are not kept. Open it, save it as Word document"
                            + " without macros (.docx) or as PDF, and drop that.");
        }
        var main = relationsOf("", parts).stream()
                .filter(relation -> relation.type().endsWith("/officeDocument"))
                .map(Relation::target)
                .findFirst()
                .orElseThrow(() -> new UnfitFile(DAMAGED));
        var type = typeOf(main, parts);
        if (type.contains("macroEnabled")) {
            throw new UnfitFile("This document may hold programs (macros), which are not kept. Open it, save it as Word"
                    + " document without macros (.docx) or as PDF, and drop that.");
        }
        if (!type.contains("wordprocessingml")) {
            throw new UnfitFile(
                    type.contains("spreadsheetml")
                            ? "This is a spreadsheet, not a letter. Save it as PDF and drop that."
                            : type.contains("presentationml")
                                    ? "These are slides, not a letter. Save them as PDF and drop that."
                                    : "This is no Word document. Save the letter as PDF and drop that.");
        }
        if (!parts.containsKey(main)) {
            throw new UnfitFile(DAMAGED);
        }
        return main;
    }

    private static boolean isProgram(String name) {
        var low = name.toLowerCase(Locale.ROOT);
        return low.endsWith("vbaproject.bin") || low.contains("/activex/") || low.endsWith("vbadata.xml");
    }

    private static byte[] part(String name, Map<String, byte[]> parts) throws UnfitFile {
        return Optional.ofNullable(parts.get(name)).orElseThrow(() -> new UnfitFile(DAMAGED));
    }

    /** The media type of a part as the document declares it; empty if it does not. */
    private static String typeOf(String name, Map<String, byte[]> parts) throws UnfitFile {
        var byEnding = "";
        try {
            var xml = reader(part(CONTENT_TYPES, parts));
            while (xml.hasNext()) {
                if (xml.next() == XMLStreamConstants.START_ELEMENT) {
                    var type = attribute(xml, "ContentType");
                    if (xml.getLocalName().equals("Override")
                            && attribute(xml, "PartName").equals("/" + name)) {
                        return type;
                    }
                    if (xml.getLocalName().equals("Default") && name.endsWith("." + attribute(xml, "Extension"))) {
                        byEnding = type;
                    }
                }
            }
        } catch (XMLStreamException e) {
            throw new UnfitFile(DAMAGED, e);
        }
        return byEnding;
    }

    /** @param target the name of the part that is related */
    private record Relation(String type, String target) {}

    /** What the part {@code name} is related to; the document as a whole for the empty name. */
    private static List<Relation> relationsOf(String name, Map<String, byte[]> parts) throws UnfitFile {
        var folder = name.substring(0, name.lastIndexOf('/') + 1);
        var relations = new ArrayList<Relation>();
        var content = parts.get(folder + "_rels/" + name.substring(folder.length()) + ".rels");
        if (content == null) {
            return relations;
        }
        try {
            var xml = reader(content);
            while (xml.hasNext()) {
                if (xml.next() == XMLStreamConstants.START_ELEMENT
                        && xml.getLocalName().equals("Relationship")
                        && !attribute(xml, "TargetMode").equals("External")) {
                    relations.add(new Relation(attribute(xml, "Type"), resolved(folder, attribute(xml, "Target"))));
                }
            }
        } catch (XMLStreamException e) {
            throw new UnfitFile(DAMAGED, e);
        }
        return relations;
    }

    private static String resolved(String folder, String target) {
        if (target.startsWith("/")) {
            return target.substring(1);
        }
        var steps = new ArrayList<>(List.of((folder + target).split("/")));
        for (var up = steps.indexOf(".."); up > 0; up = steps.indexOf("..")) {
            steps.remove(up);
            steps.remove(up - 1);
        }
        steps.removeIf(step -> step.isEmpty() || step.equals("."));
        return String.join("/", steps);
    }

    private static XMLStreamReader reader(byte[] content) throws XMLStreamException {
        var factory = XMLInputFactory.newDefaultFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        factory.setProperty(XMLInputFactory.IS_COALESCING, true);
        return factory.createXMLStreamReader(new ByteArrayInputStream(content));
    }

    private static String attribute(XMLStreamReader xml, String name) {
        for (var i = 0; i < xml.getAttributeCount(); i++) {
            if (xml.getAttributeLocalName(i).equals(name)) {
                return xml.getAttributeValue(i);
            }
        }
        return "";
    }

    private static String wordsOf(byte[] part) throws UnfitFile {
        try {
            return new Words().of(reader(part));
        } catch (XMLStreamException e) {
            throw new UnfitFile(DAMAGED, e);
        }
    }

    /** Collects the words of one part. */
    private static final class Words {

        private final StringBuilder text = new StringBuilder();
        private int tables;
        private boolean hidden;

        String of(XMLStreamReader xml) throws XMLStreamException {
            while (xml.hasNext()) {
                switch (xml.next()) {
                    case XMLStreamConstants.START_ELEMENT -> start(xml);
                    case XMLStreamConstants.END_ELEMENT -> end(xml);
                    default -> {
                        // Words stand in elements of their own.
                    }
                }
            }
            return text.toString();
        }

        private void start(XMLStreamReader xml) throws XMLStreamException {
            var name = xml.getLocalName();
            if (UNSEEN.contains(name)) {
                skip(xml);
                return;
            }
            if (!isOfWord(xml)) {
                return;
            }
            switch (name) {
                case "t" -> {
                    var words = xml.getElementText();
                    if (!hidden) {
                        text.append(words);
                    }
                }
                case "tab", "ptab" -> tab(xml);
                case "br", "cr" -> add('\n');
                case "noBreakHyphen" -> add('-');
                case "tbl" -> tables++;
                case "r" -> hidden = false;
                case "vanish" -> hidden = !Set.of("0", "false", "off").contains(attribute(xml, "val"));
                case "txbxContent" -> newLine();
                case "footnote", "endnote" -> {
                    // The line between text and notes is a note too.
                    if (!attribute(xml, "type").isEmpty()
                            && !attribute(xml, "type").equals("normal")) {
                        skip(xml);
                    }
                }
                default -> {
                    // Form, not words.
                }
            }
        }

        /** A stop in the settings of a paragraph has the same name as one in its words, but says where it is. */
        private void tab(XMLStreamReader xml) {
            if (attribute(xml, "pos").isEmpty()) {
                add('\t');
            }
        }

        private void add(char c) {
            if (!hidden) {
                text.append(c);
            }
        }

        private void end(XMLStreamReader xml) {
            if (!isOfWord(xml)) {
                return;
            }
            switch (xml.getLocalName()) {
                case "p" -> text.append('\n');
                case "r" -> hidden = false;
                case "tc" -> {
                    withoutLineEnd();
                    text.append('\t');
                }
                case "tr" -> {
                    while (!text.isEmpty() && text.charAt(text.length() - 1) == '\t') {
                        text.setLength(text.length() - 1);
                    }
                    text.append('\n');
                }
                case "tbl" -> tables--;
                default -> {
                    // Form, not words.
                }
            }
        }

        private void withoutLineEnd() {
            if (tables > 0 && !text.isEmpty() && text.charAt(text.length() - 1) == '\n') {
                text.setLength(text.length() - 1);
            }
        }

        private void newLine() {
            if (!text.isEmpty() && text.charAt(text.length() - 1) != '\n') {
                text.append('\n');
            }
        }

        private static boolean isOfWord(XMLStreamReader xml) {
            var namespace = xml.getNamespaceURI();
            return namespace != null && namespace.contains(WORD_NAMESPACE);
        }

        private static void skip(XMLStreamReader xml) throws XMLStreamException {
            for (var depth = 1; depth > 0; ) {
                switch (xml.next()) {
                    case XMLStreamConstants.START_ELEMENT -> depth++;
                    case XMLStreamConstants.END_ELEMENT -> depth--;
                    default -> {
                        // Not seen.
                    }
                }
            }
        }
    }
}
