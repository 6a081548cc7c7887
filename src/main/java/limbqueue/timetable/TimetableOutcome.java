package limbqueue.timetable;

import java.util.List;

/** What became of something that was to be done. */
public sealed interface TimetableOutcome {

    /** @param remarks what is worth knowing of it */
    record Done(List<String> remarks) implements TimetableOutcome {

        public Done {
            remarks = List.copyOf(remarks);
        }

        static Done plainly() {
            return new Done(List.of());
        }
    }

    /** @param why what is in the way, and what to do */
    record Refused(String why) implements TimetableOutcome {}

    /** Somebody else changed it meanwhile. */
    record Overtaken() implements TimetableOutcome {}

    /**
     * It can be done, once a person has said yes to this.
     *
     * @param concerns one sentence each
     */
    record AsksFirst(List<String> concerns) implements TimetableOutcome {

        public AsksFirst {
            concerns = List.copyOf(concerns);
        }
    }
}
