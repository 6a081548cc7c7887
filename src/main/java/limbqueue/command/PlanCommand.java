package limbqueue.command;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import limbqueue.booking.CasePath;
import limbqueue.booking.CasePath.Known;
import limbqueue.booking.CasePath.NotQueued;
import limbqueue.booking.CasePath.Waits;
import limbqueue.booking.Plan;
import limbqueue.booking.Planner;
import limbqueue.booking.Search;
import limbqueue.booking.Step;
import limbqueue.booking.StepKind;
import limbqueue.booking.Waiting;
import limbqueue.booking.WaitingCase;
import limbqueue.command.Options.ArgumentsException;
import limbqueue.command.Options.Option;
import limbqueue.document.CheckedJson;
import limbqueue.document.DocumentFormat;
import limbqueue.document.DocumentReader;
import limbqueue.document.LineFormat;
import limbqueue.document.Reading;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import tools.jackson.core.exc.JacksonIOException;

/** {@code plan}: reads sessions and referrals and prints who goes into which session, and why. */
final class PlanCommand implements Command {

    private static final Option SEED = new Option("--seed", "NUMBER", "a number", "1");
    private static final Option STEPS = new Option("--steps", "NUMBER", "a number", "200000");
    private static final int USUAL_STEPS = 200_000;
    private static final int MOST_STEPS = 100_000_000;

    private record Arguments(
            LocalDate asOf, Policy policy, Search search, Path file, SessionsFile sessions, List<Path> paths) {}

    /** A referral and the name under which it is planned. */
    private record Referral(String reference, ReferralDocument document) {}

    /**
     * The first line.
     *
     * @param notQueued referrals that need no place, by reference
     * @param remarks what is worth knowing of the sessions and of what is known of cases
     */
    private record PlanLine(
            String notice,
            LocalDate asOf,
            String policy,
            long seed,
            int steps,
            List<Plan.LevelScore> levels,
            List<Plan.SessionLoad> sessions,
            List<Plan.MovedAppointment> told,
            List<NotQueued> notQueued,
            List<String> remarks) {}

    @Override
    public String name() {
        return "plan";
    }

    @Override
    public String help() {
        return """
                java -jar limbqueue.jar plan [--as-of DATE] [--policy FILE] [--seed NUMBER] [--steps NUMBER]
                                             SESSIONS.json PATH...

                  Reads a practice's sessions and its referrals, and proposes who goes into which session. The first
                  line is the plan as a whole with its score at each level, most important first; then one line a
                  case (JSON Lines): why it is there, what would have to give for an earlier place, or which rule
                  keeps it from one. The same seed and number of steps print the same bytes.
                  Every plan is a proposal: a licensed clinician decides, and local protocol prevails.

                  SESSIONS.json   see demo-referrals/sessions.json and demo-referrals/sessions.schema.json
                                  sessions may repeat (RFC 5545) and are closed on bank holidays and closed days
                                  and may hold minutes for urgent cases ("held"), released 2 days before
                  PATH            referrals, as for triage
                  --as-of DATE    the day of planning, as 2026-03-02; today when not given
                  --policy FILE   the practice's own days and validities; see demo-referrals/standard.policy.json
                  --seed NUMBER   where the search begins; 1 when not given
                  --steps NUMBER  how many changes it tries; 200000 when not given

                  A referral with anything wrong in it is told on standard error and left out; with anything wrong
                  in the sessions nothing is planned.
                  Exit status: 0 when everything was planned, else 2.
                """;
    }

    @Override
    public int run(List<String> arguments, Console console) throws Console.CannotWriteException {
        DocumentFormat.prepare();
        Optional<Arguments> asked;
        try {
            asked = read(arguments);
        } catch (ArgumentsException e) {
            console.complain("limbqueue plan: " + e.getMessage());
            return INCOMPLETE;
        }
        if (asked.isEmpty()) {
            console.explain(help());
            return INCOMPLETE;
        }
        return new Run(asked.get(), console).plan() ? DONE : INCOMPLETE;
    }

    private static Optional<Arguments> read(List<String> arguments) throws ArgumentsException {
        var options = Options.read(arguments, Options.AS_OF, Options.POLICY, SEED, STEPS);
        var policy = options.policy();
        var search = Search.of(
                options.number(SEED, Integer.MAX_VALUE).orElse(1),
                options.number(STEPS, MOST_STEPS).orElse(USUAL_STEPS));
        var paths = options.paths();
        if (paths.size() < 2) {
            return Optional.empty();
        }
        var file = paths.getFirst();
        var sessions = sessions(file);
        // Today is the day at the place of the sessions.
        return Optional.of(new Arguments(
                options.asOf(sessions.zone()), policy, search, file, sessions, paths.subList(1, paths.size())));
    }

    private static SessionsFile sessions(Path file) throws ArgumentsException {
        try (var in = Options.open(file)) {
            var result = SessionsFile.read(in);
            return result.file()
                    .orElseThrow(() -> new ArgumentsException(
                            "nothing is planned. %s: %s".formatted(file, Options.problems(result.problems()))));
        } catch (IOException | JacksonIOException e) {
            throw new ArgumentsException(
                    "the sessions cannot be read. %s: %s".formatted(file, Options.whyUnreadable(e)));
        }
    }

    /** One run: what it was asked to do, and whether anything was left out. */
    private static final class Run implements NamedFiles.Taker {
        private final Arguments asked;
        private final Console console;
        private final Map<String, Referral> referrals = new TreeMap<>();
        private final List<String> remarks;
        private boolean complete = true;

        Run(Arguments asked, Console console) {
            this.asked = asked;
            this.remarks = new ArrayList<>(asked.sessions().remarks());
            this.console = console;
        }

        boolean plan() throws Console.CannotWriteException {
            for (var path : asked.paths()) {
                if (!NamedFiles.referrals(path, this)) {
                    console.complain(NamedFiles.noReferralIn(path));
                }
            }
            tellUnknownCases();
            var waiting = new ArrayList<WaitingCase>();
            var notQueued = new ArrayList<NotQueued>();
            for (var referral : referrals.values()) {
                switch (path(referral)) {
                    case Waits(var one) -> {
                        waiting.add(one);
                        remarkToldInVain(
                                one.reference(),
                                one.steps().stream().map(Step::kind).collect(Collectors.toSet()));
                    }
                    case NotQueued not -> {
                        notQueued.add(not);
                        remarkToldInVain(not.reference(), Set.of());
                    }
                }
            }
            var plan = Planner.plan(
                    Waiting.untilTheLastSession(
                            asked.asOf(),
                            asked.sessions().zone(),
                            asked.sessions().sessions(),
                            waiting),
                    asked.search());
            console.result(LineFormat.write(new PlanLine(
                    plan.notice(),
                    plan.asOf(),
                    asked.policy().id(),
                    plan.seed(),
                    plan.steps(),
                    plan.levels(),
                    plan.sessions(),
                    plan.told(),
                    notQueued,
                    remarks)));
            for (var one : plan.cases()) {
                console.result(LineFormat.write(one));
            }
            return complete;
        }

        private CasePath.Outcome path(Referral referral) {
            return CasePath.of(
                    referral.reference(),
                    referral.document(),
                    asked.policy(),
                    asked.asOf(),
                    asked.sessions().lead(),
                    asked.sessions().minutes(),
                    known(referral.reference()));
        }

        private Known known(String reference) {
            return asked.sessions().known().getOrDefault(reference, Known.NOTHING);
        }

        /** An appointment of which the patient knows and the plan does not would be kept in vain. */
        private void remarkToldInVain(String reference, Set<StepKind> path) {
            new TreeMap<>(known(reference).told()).forEach((step, session) -> {
                if (!path.contains(step)) {
                    remarks.add(
                            "%s: the patient has been told of %s in session %s, and it is no step of the path any more. Cancel it, or check the referral."
                                    .formatted(reference, step.words(), session));
                }
            });
        }

        /** What is known of a case that nobody referred was meant for another one. */
        private void tellUnknownCases() {
            asked.sessions().known().keySet().stream()
                    .filter(reference -> !referrals.containsKey(reference))
                    .sorted()
                    .forEach(reference -> leaveOut(
                            asked.file(),
                            "cases: none of the referrals has the reference %s, so what is said of it does not count.%s"
                                    .formatted(
                                            reference,
                                            CheckedJson.didYouMean(reference, List.copyOf(referrals.keySet())))));
        }

        @Override
        public void file(Path file) {
            try (var in = Options.open(file);
                    var reader = new DocumentReader(in, asked.asOf())) {
                var number = 0;
                for (var next = reader.next(); next.isPresent(); next = reader.next()) {
                    add(next.get(), file, number++);
                }
            } catch (IOException | JacksonIOException e) {
                leaveOut(file, Options.whyUnreadable(e));
            }
        }

        private void add(Reading reading, Path file, int number) {
            if (!reading.complete()) {
                leaveOut(file, Options.problems(reading.problems()));
                return;
            }
            var reference =
                    reading.document().reference().orElseGet(() -> "%s[%d]".formatted(file.getFileName(), number));
            if (referrals.putIfAbsent(reference, new Referral(reference, reading.document())) != null) {
                leaveOut(
                        file,
                        "reference: %s has been read already, so this one is left out. Give each its own."
                                .formatted(reference));
            }
        }

        @Override
        public void unreadable(Path folder, String why) {
            leaveOut(folder, why);
        }

        private void leaveOut(Path path, String problem) {
            complete = false;
            console.complain(path + ": " + problem);
        }
    }
}
