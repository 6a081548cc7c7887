package limbqueue.letter;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.letter.Parts.Letterhead;
import limbqueue.print.EnvelopeWindow;
import limbqueue.print.Typeface;

/**
 * Where things stand on the first page of a letter: the letterhead, the sender and the address in the window of the envelope,
 * and below it the words. Millimetres from the upper edge unless it says otherwise.
 */
final class FirstPage {

    static final double TOP = 16;
    static final double RIGHT = 22;

    /** Above every window, in whatever position. */
    private static final double LETTERHEAD_ENDS = 42;

    /** With the space above it. */
    private static final double LETTERHEAD_RULE = 3.3;

    private static final double POINT = 25.4 / 72;
    private static final List<Double> SIZES_OF_THE_NAME = List.of(17.0, 14.0, 11.0);
    private static final double NAME_LEADING = 1.3;
    private static final double HEAD_SIZE = 8.5;
    private static final double HEAD_LEADING = 12.75;
    private static final double SENDER_SIZE = 7;
    private static final double SENDER_LEADING = 8.75;
    private static final double BELOW_THE_SENDER = 0.8;

    /** The part of the address field of DIN 5008 that is above the address. */
    private static final double SENDER_HAS = 17.7;

    private final Letterhead head;
    private final EnvelopeWindow window;

    FirstPage(Letterhead head) {
        this.head = head;
        this.window = head.window();
    }

    /** The sender in lines, for the window; none where it is not shown. */
    List<String> sender() {
        return window.showsSender()
                ? Typeface.wrapped(
                        String.join(
                                " · ",
                                Stream.concat(Stream.of(head.name()), head.lines().stream())
                                        .toList()),
                        SENDER_SIZE,
                        window.address().width())
                : List.of();
    }

    /** What has no room, in words; nothing if all has. */
    static Optional<String> tooLong(Letterhead head) {
        var page = new FirstPage(head);
        if (page.headHeight() > LETTERHEAD_ENDS - TOP - LETTERHEAD_RULE) {
            return Optional.of("The letterhead is too long for the space above the window of the envelope. Shorten the"
                    + " name or the lines of the address.");
        }
        return page.senderHeight() > SENDER_HAS
                ? Optional.of("The sender is too long for the window of the envelope, where name and address of the"
                        + " practice stand above the address. Shorten the name or the lines of the address.")
                : Optional.empty();
    }

    private double headHeight() {
        var size = nameSize();
        return lines(head.name(), size) * size * NAME_LEADING * POINT
                + (lines(String.join(", ", head.lines()), HEAD_SIZE)
                                + lines(String.join(" \u00A0·\u00A0 ", head.contact()), HEAD_SIZE))
                        * HEAD_LEADING
                        * POINT;
    }

    /** The largest in which the name has one line. */
    private double nameSize() {
        return SIZES_OF_THE_NAME.stream()
                .filter(size -> lines(head.name(), size) <= 1)
                .findFirst()
                .orElse(SIZES_OF_THE_NAME.getLast());
    }

    private int lines(String text, double size) {
        return Typeface.wrapped(
                        text, size, window.sheet().width() - window.address().left() - RIGHT)
                .size();
    }

    private double senderHeight() {
        return sender().size() * SENDER_LEADING * POINT + BELOW_THE_SENDER;
    }

    /** The style that puts everything into its place. */
    String style() {
        var address = window.address();
        var sheet = window.sheet();
        return String.format(
                Locale.ROOT,
                """
                @page { size: %.2fmm %.2fmm; margin: %.2fmm %.2fmm 18mm %.2fmm; }
                .head { height: %.2fmm; }
                .letterhead .practice { font-size: %.2fpt; line-height: %.2f; letter-spacing: 0; }
                .sender { margin: %.2fmm 0 %.2fmm 0; font-size: %.2fpt; line-height: %.2fpt; }
                .addressee { margin: %.2fmm 0 0 0; height: %.2fmm; font-size: %.2fpt; line-height: %.2fpt; }
                .dated { margin: -5mm 0 %.2fmm 0; height: 5mm; line-height: 5mm; }
                """,
                sheet.width(),
                sheet.height(),
                TOP,
                RIGHT,
                address.left(),
                LETTERHEAD_ENDS - TOP,
                nameSize(),
                NAME_LEADING,
                address.top() - LETTERHEAD_ENDS - senderHeight(),
                BELOW_THE_SENDER,
                SENDER_SIZE,
                SENDER_LEADING,
                sender().isEmpty() ? address.top() - LETTERHEAD_ENDS : 0,
                address.height(),
                window.lines().points(),
                window.lines().leading(),
                window.textFrom() - address.top() - address.height());
    }
}
