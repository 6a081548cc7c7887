package limbqueue.booking;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class DoubleUseTest {

    private static Session session(String id, String start, String end, String place, String operator, boolean closed) {
        var day = LocalDate.of(2026, 3, 3);
        return new Session(
                id,
                SessionKind.CLINIC,
                day.atTime(LocalTime.parse(start)),
                day.atTime(LocalTime.parse(end)),
                60,
                place,
                operator,
                Set.of(),
                closed);
    }

    private static List<String> found(Session... sessions) {
        return DoubleUse.among(List.of(sessions)).stream()
                .map(use -> use.session().id() + "/" + use.other().id())
                .toList();
    }

    @Test
    void onePlaceOrOneOperatorCannotBeInTwoSessionsAtATime() {
        var morning = session("A", "08:00", "12:00", "Room 1", "Dr Halvern", false);
        assertThat(found(morning, session("B", "11:00", "13:00", "Room 1", "Dr Imre", false)))
                .containsExactly("B/A");
        assertThat(found(session("B", "09:00", "10:00", "Room 2", "Dr Halvern ", false), morning))
                .containsExactly("B/A");
        assertThat(DoubleUse.among(List.of(morning, session("B", "11:00", "13:00", "Room 1", "Dr Imre", false))))
                .singleElement()
                .extracting(DoubleUse::text)
                .asString()
                .isEqualTo(
                        "It has the same place as session A, Room 1, and both are there on 2026-03-03 from 11:00 to 12:00."
                                + " Change the time of one, or close it.");
    }

    @Test
    void oneAfterTheOtherOrAClosedOneIsNoDoubleUse() {
        var morning = session("A", "08:00", "12:00", "Room 1", "Dr Halvern", false);
        assertThat(found(morning, session("B", "12:00", "13:00", "Room 1", "Dr Halvern", false)))
                .isEmpty();
        assertThat(found(morning, session("B", "11:00", "13:00", "Room 1", "Dr Halvern", true)))
                .isEmpty();
        assertThat(found(morning, session("B", "11:00", "13:00", "Room 2", "Dr Imre", false)))
                .isEmpty();
    }

    @Test
    void aLongSessionIsFoundBehindAShortOne() {
        assertThat(found(
                        session("A", "08:00", "16:00", "Room 1", "Dr Halvern", false),
                        session("B", "09:00", "10:00", "Room 1", "Dr Imre", false),
                        session("C", "15:00", "17:00", "Room 1", "Dr Ondrel", false)))
                .containsExactly("B/A", "C/A");
    }
}
