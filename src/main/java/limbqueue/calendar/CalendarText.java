package limbqueue.calendar;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import limbqueue.timetable.CalendarSession;
import limbqueue.triage.TriageResult;
import net.fortuna.ical4j.model.Calendar;
import net.fortuna.ical4j.model.ComponentList;
import net.fortuna.ical4j.model.Property;
import net.fortuna.ical4j.model.PropertyList;
import net.fortuna.ical4j.model.component.CalendarComponent;
import net.fortuna.ical4j.model.component.Observance;
import net.fortuna.ical4j.model.component.Standard;
import net.fortuna.ical4j.model.component.VEvent;
import net.fortuna.ical4j.model.component.VTimeZone;
import net.fortuna.ical4j.model.property.Description;
import net.fortuna.ical4j.model.property.DtEnd;
import net.fortuna.ical4j.model.property.DtStamp;
import net.fortuna.ical4j.model.property.DtStart;
import net.fortuna.ical4j.model.property.LastModified;
import net.fortuna.ical4j.model.property.Location;
import net.fortuna.ical4j.model.property.ProdId;
import net.fortuna.ical4j.model.property.Sequence;
import net.fortuna.ical4j.model.property.Summary;
import net.fortuna.ical4j.model.property.TzId;
import net.fortuna.ical4j.model.property.TzOffsetFrom;
import net.fortuna.ical4j.model.property.TzOffsetTo;
import net.fortuna.ical4j.model.property.Uid;
import net.fortuna.ical4j.model.property.XProperty;
import net.fortuna.ical4j.model.property.immutable.ImmutableCalScale;
import net.fortuna.ical4j.model.property.immutable.ImmutableStatus;
import net.fortuna.ical4j.model.property.immutable.ImmutableTransp;
import net.fortuna.ical4j.model.property.immutable.ImmutableVersion;

/**
 * Sessions as an iCalendar text (RFC 5545). Times are in UTC (section 3.3.5, form 2), so that no program has to know the
 * practice's rules of summer time. A session that is closed stays in it as cancelled (section 3.8.1.11), since a program may
 * keep what is merely gone.
 */
final class CalendarText {

    private static final Pattern CONTROL = Pattern.compile("\\p{Cc}+");

    private CalendarText() {}

    /** The whole text, in lines of at most 75 octets of UTF-8. The same sessions give the same text. */
    static String of(CalendarOf of, List<CalendarSession> sessions) {
        var properties = List.<Property>of(
                new ProdId("-//LimbQueue//Sessions//EN"),
                ImmutableVersion.VERSION_2_0,
                ImmutableCalScale.GREGORIAN,
                // Not of the standard, which has no name for a calendar; programs show it as one.
                new XProperty("X-WR-CALNAME", plain("Sessions: " + of.name())));
        var components = new ArrayList<CalendarComponent>();
        sessions.forEach(session -> components.add(event(session)));
        if (components.isEmpty()) {
            // A calendar has one component or more (section 3.6), and there is no event.
            components.add(utc());
        }
        return FoldedLines.of(new Calendar(new PropertyList(properties), new ComponentList<>(components)).toString());
    }

    private static VEvent event(CalendarSession session) {
        return new VEvent(new PropertyList(List.of(
                new Uid(session.uid().toString()),
                // Without a method it tells when the event was last revised (section 3.8.7.2).
                new DtStamp(session.changed()),
                new LastModified(session.changed()),
                new Sequence(session.changes()),
                new DtStart<Instant>(session.start()),
                new DtEnd<Instant>(session.end()),
                new Summary(summary(session)),
                new Location(plain(session.place())),
                new Description("Operator: %s\n%s".formatted(plain(session.operator()), TriageResult.NOTICE)),
                session.closed() ? ImmutableStatus.VEVENT_CANCELLED : ImmutableStatus.VEVENT_CONFIRMED,
                session.closed() ? ImmutableTransp.TRANSPARENT : ImmutableTransp.OPAQUE)));
    }

    private static String summary(CalendarSession session) {
        var kind = session.kind().words();
        return "%s, %s"
                .formatted(
                        kind.substring(0, 1).toUpperCase(Locale.ROOT) + kind.substring(1),
                        session.closed() ? "closed" : session.cases() == 1 ? "1 case" : session.cases() + " cases");
    }

    /** Text has no control characters (section 3.3.11). */
    private static String plain(String typed) {
        return CONTROL.matcher(typed).replaceAll(" ");
    }

    private static VTimeZone utc() {
        var always = new Standard(new PropertyList(List.of(
                new DtStart<LocalDateTime>(LocalDateTime.of(1970, 1, 1, 0, 0)),
                new TzOffsetFrom(ZoneOffset.UTC),
                new TzOffsetTo(ZoneOffset.UTC))));
        return new VTimeZone(
                new PropertyList(List.of(new TzId("Etc/UTC"))), new ComponentList<Observance>(List.of(always)));
    }
}
