package limbqueue.referral;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import limbqueue.triage.Policy;
import limbqueue.triage.ProcedurePlan.RoomItem;
import limbqueue.triage.Side;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.TriageResult.Rutherford;

/** Whether a decision may stand: what differs between two proposals of that which it was made on. */
final class WhatChanged {

    private WhatChanged() {}

    /**
     * One sentence for each of: the tier, the target date, the category of a leg, each red flag, and what must be
     * in the room. Nothing else makes a decision fall.
     */
    static List<String> between(TriageResult before, TriageResult now, Policy policy) {
        var changes = new ArrayList<String>();
        if (before.urgency().tier() != now.urgency().tier()) {
            changes.add("Urgency was " + TierPhrase.of(before.urgency().tier(), policy) + ", now is "
                    + TierPhrase.of(now.urgency().tier(), policy) + ".");
        } else if (!before.urgency().targetDate().equals(now.urgency().targetDate())) {
            changes.add("The target date was " + date(before) + ", now is " + date(now) + ".");
        }
        for (var side : Side.values()) {
            var was = before.legs().of(side).rutherford().category();
            var is = now.legs().of(side).rutherford().category();
            if (was != is) {
                changes.add("The " + side.name().toLowerCase(Locale.ROOT) + " leg was Rutherford " + category(was)
                        + ", now is " + category(is) + ".");
            }
        }
        var flagsBefore = flags(before);
        var flagsNow = flags(now);
        flagsNow.forEach((code, flag) -> {
            if (!flagsBefore.containsKey(code)) {
                changes.add("New red flag, " + words(code) + ": " + flag.text());
            }
        });
        flagsBefore.forEach((code, flag) -> {
            if (!flagsNow.containsKey(code)) {
                changes.add("Red flag withdrawn: " + words(code) + ".");
            }
        });
        var inRoomBefore = mustBeInRoom(before);
        var inRoomNow = mustBeInRoom(now);
        inRoomNow.forEach((rule, item) -> {
            if (!inRoomBefore.containsKey(rule)) {
                changes.add("Must now be in the room: " + item.item() + ".");
            }
        });
        inRoomBefore.forEach((rule, item) -> {
            if (!inRoomNow.containsKey(rule)) {
                changes.add("Need not be in the room any more: " + item.item() + ".");
            }
        });
        return List.copyOf(changes);
    }

    private static String date(TriageResult proposal) {
        return proposal.urgency().targetDate().map(Object::toString).orElse("none");
    }

    private static String category(Rutherford category) {
        return switch (category.scale()) {
            case CHRONIC -> category.label();
            case ACUTE -> "acute " + category.label();
        };
    }

    private static Map<String, RedFlag> flags(TriageResult proposal) {
        return proposal.redFlags().stream()
                .collect(Collectors.toMap(RedFlag::code, Function.identity(), (one, other) -> one, LinkedHashMap::new));
    }

    private static String words(String code) {
        return code.replace('-', ' ');
    }

    /** By rule: a size that is measured changes the words of an item and not whether it must be there. */
    private static Map<String, RoomItem> mustBeInRoom(TriageResult proposal) {
        return proposal.procedurePlan().stream()
                .flatMap(plan -> plan.room().stream())
                .filter(RoomItem::mustBeInRoom)
                .collect(
                        Collectors.toMap(RoomItem::rule, Function.identity(), (one, other) -> one, LinkedHashMap::new));
    }
}
