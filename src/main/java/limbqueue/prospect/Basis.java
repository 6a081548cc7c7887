package limbqueue.prospect;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.forecast.HeldBack;
import limbqueue.forecast.Situation;
import limbqueue.forecast.WeeklySession;

/** What there is to look ahead from. */
public sealed interface Basis {

    /**
     * Not enough.
     *
     * @param why one sentence each: what is missing, and what to do
     */
    record Lacking(List<String> why) implements Basis {

        public Lacking {
            why = List.copyOf(why);
        }
    }

    /**
     * Enough.
     *
     * @param history from which arrivals are learned
     * @param undecided how many of those who wait no physician has decided on; they count as proposed
     * @param usualWeek the sessions of a usual week; may be empty
     * @param held the question how much time to hold; empty without a usual week
     * @param remarks one sentence each on what this rests on poorly
     */
    record Given(
            Situation situation,
            History history,
            int undecided,
            List<WeeklySession> usualWeek,
            Optional<HeldBack> held,
            List<String> remarks)
            implements Basis {

        public Given {
            usualWeek = List.copyOf(usualWeek);
            remarks = List.copyOf(remarks);
        }
    }

    /**
     * The weeks in which arrivals were counted.
     *
     * @param last both days included
     * @param weeks whole ones
     * @param referrals that need the procedure room
     */
    record History(LocalDate first, LocalDate last, int weeks, int referrals) {}
}
