package limbqueue.intake;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.document.Problem;
import limbqueue.reading.ReadLetter;
import limbqueue.reading.ReadLetter.Unclear;
import tools.jackson.databind.JsonNode;

/**
 * A letter that has been read, and what a person has made of each thing that it proposes so far. Not safe for use by
 * several threads at once.
 */
public final class OpenLetter {

    private final String text;
    private final LetterProposals proposals;
    private final List<Unclear> unclear;
    private final Map<Integer, Answer> answers = new HashMap<>();

    /** @param referral what the referral says already; empty for a new one */
    OpenLetter(String text, ReadLetter read, Draft referral) {
        this.text = text;
        this.proposals = LetterProposals.of(read, referral);
        this.unclear = List.copyOf(read.unclear());
    }

    public String text() {
        return text;
    }

    public List<Proposal> proposals() {
        return proposals.proposals();
    }

    /** What is mentioned and must be asked. */
    public List<Unclear> unclear() {
        return unclear;
    }

    /** How many things the letter says that the referral says just so. */
    public int alreadyThere() {
        return proposals.alreadyThere();
    }

    public Answer answer(Proposal proposal) {
        return answers.getOrDefault(proposal.number(), Answer.OPEN);
    }

    public void answer(Proposal proposal, Answer answer) {
        answers.put(proposal.number(), answer);
    }

    /** Accepts what is open, but for what would replace something that the referral says: that is chosen one by one. */
    public void acceptAll() {
        for (var proposal : proposals()) {
            if (answer(proposal) == Answer.OPEN && !proposal.contradicts()) {
                answer(proposal, Answer.ACCEPTED);
            }
        }
    }

    /**
     * Takes over what was answered and corrected before the letter was read again. What now would replace something
     * that
     * the referral says is open again.
     */
    public void takeOver(OpenLetter before) {
        for (var proposal : proposals()) {
            before.proposals().stream()
                    .filter(older -> asks(older).equals(asks(proposal)))
                    .filter(older -> proposal.parts().stream()
                            .allMatch(part -> proposals
                                    .found()
                                    .get(part.path())
                                    .equals(before.proposals.found().get(part.path()))))
                    .findFirst()
                    .ifPresent(older -> {
                        answer(
                                proposal,
                                proposal.contradicts() && !older.contradicts() ? Answer.OPEN : before.answer(older));
                        proposal.parts().forEach(part -> proposals.letter().putBack(part.path(), before.value(part)));
                    });
        }
    }

    private static List<String> asks(Proposal proposal) {
        return proposal.parts().stream().map(Proposal.Part::path).toList();
    }

    /** How many proposals have this answer. */
    public int count(Answer answer) {
        return (int) proposals().stream()
                .filter(proposal -> answer(proposal) == answer)
                .count();
    }

    /** The value that would be entered, as found or as corrected; empty if it was corrected to nothing. */
    public Optional<JsonNode> value(Proposal.Part part) {
        return proposals.letter().get(part.path());
    }

    /** Puts another value in place of the one found. */
    public void correct(Proposal.Part part, Optional<Object> value) {
        value.ifPresentOrElse(
                typed -> proposals.letter().set(part.path(), typed),
                () -> proposals.letter().clear(part.path()));
    }

    /** What cannot be right in a value that would be entered, each a sentence. */
    public List<String> problems(Proposal.Part part, LocalDate today) {
        return proposals.letter().read(today).problems().stream()
                .filter(problem -> problem.path().equals(part.path()))
                .map(Problem::text)
                .toList();
    }

    /** Enters into {@code draft} what was accepted, and the letter itself behind a letter that is there. */
    void enterInto(Draft draft) {
        for (var proposal : proposals()) {
            if (answer(proposal) == Answer.ACCEPTED) {
                proposal.entry()
                        .ifPresentOrElse(
                                entry -> enter(entry, proposal, draft),
                                () -> proposal.parts().forEach(part -> enter(part, part.path(), draft)));
            }
        }
        if (!text.isBlank()) {
            var there = draft.get("letterText").filter(JsonNode::isString).map(JsonNode::stringValue);
            if (there.filter(letter -> letter.contains(text)).isEmpty()) {
                draft.set(
                        "letterText",
                        there.filter(letter -> !letter.isBlank())
                                .map(letter -> letter.stripTrailing() + "\n\n" + text)
                                .orElse(text));
            }
        }
    }

    private void enter(Proposal.Entry entry, Proposal proposal, Draft draft) {
        var known = new ArrayList<Proposal.Part>();
        proposal.parts().stream().filter(part -> value(part).isPresent()).forEach(known::add);
        if (!known.isEmpty()) {
            int index = entry.index().orElseGet(() -> draft.sizeOf(entry.list()).orElse(0));
            for (var part : known) {
                var within = part.path().substring(part.path().indexOf(']') + 1);
                enter(part, entry.list() + "[" + index + "]" + within, draft);
            }
        }
    }

    private void enter(Proposal.Part part, String path, Draft draft) {
        value(part).ifPresent(value -> draft.putBack(path, Optional.of(value)));
    }
}
