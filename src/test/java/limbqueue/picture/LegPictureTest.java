package limbqueue.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import limbqueue.picture.LegPicture.Label;
import limbqueue.picture.LegPicture.Line;
import limbqueue.picture.LegPicture.Mark;
import limbqueue.picture.LegPicture.Place;
import limbqueue.testbed.GeneratedReferrals;
import limbqueue.triage.ReferralDocument.Amputation;
import limbqueue.triage.ReferralDocument.Segment;
import org.junit.jupiter.api.Test;

/** What stands on the picture; the expectations are read off each document by hand. */
class LegPictureTest {

    @Test
    void nobodySaidIsShownOtherwiseThanNoneFound() {
        var unknown = Pictured.picture("{}");
        assertThat(unknown.lesionsKnown()).isFalse();
        assertThat(unknown.caption()).startsWith("Lesions not known.");
        assertThat(unknown.lines()).contains(new Line("Lesions", "", "", "not known"));
        assertThat(unknown.places()).extracting(Place::words).containsOnly("not known");

        var none = Pictured.picture("{\"lesions\": []}");
        assertThat(none.lesionsKnown()).isTrue();
        assertThat(none.caption()).startsWith("No lesions found.");
        assertThat(none.lines()).contains(new Line("Lesions", "", "", "none found"));
        assertThat(none.marks()).isEmpty();
    }

    @Test
    void everySegmentOfTheFormatHasItsPlaceOnEachSideAndTheAortaOne() {
        var places = Pictured.picture("{}").places();
        assertThat(places).hasSize(25);
        assertThat(places).extracting(Place::name).doesNotHaveDuplicates();
        assertThat(places.getFirst().name()).isEqualTo("infrarenal aorta");
        assertThat(places).filteredOn(place -> place.side().equals("right")).hasSize(12);
        assertThat(Arteries.DRAWN.segments())
                .extracting(Arteries.Artery::code)
                .containsExactlyElementsOf(
                        Stream.of(Segment.values()).map(Arteries::code).toList());
    }

    @Test
    void aLesionIsMarkedWithAllThatIsReportedOfIt() {
        var picture = Pictured.picture("""
                {"lesions": [{"side": "left", "segment": "externalIliac", "stenosisPercent": 100, "lengthMm": 50,
                  "ostial": true, "calcification": "severe", "inStent": true, "ageMonths": 24, "diameterMm": 7.5,
                  "source": "cta"}]}""");
        assertThat(picture.marks())
                .containsExactly(
                        new Mark("occlusion", "externalIliac", "left", 0, 0.5, 0),
                        new Mark("severe", "externalIliac", "left", 0, 0.5, 0),
                        new Mark("stent", "externalIliac", "left", 0, 0.5, 0));
        assertThat(words(picture, "left external iliac"))
                .isEqualTo(
                        "occlusion, 50\u00a0mm long, vessel 7.5\u00a0mm wide, severely calcified, at the origin, in a"
                                + " stent, 24 months old, seen on CT angiogram");
        assertThat(words(picture, "right external iliac")).isEqualTo("nothing reported");
        assertThat(picture.labels()).extracting(Label::text).contains("100\u00a0% 50\u00a0mm");
    }

    @Test
    void whatIsDeniedIsSaidAndNotDrawn() {
        var picture = Pictured.picture("""
                {"lesions": [{"side": "right", "segment": "popliteal", "stenosisPercent": 70, "lengthMm": 16,
                  "ostial": false, "calcification": "none", "inStent": false, "aneurysm": false}]}""");
        assertThat(picture.marks()).extracting(Mark::kind).containsExactly("stenosis");
        assertThat(picture.marks().getFirst().percent()).isEqualTo(70);
        assertThat(words(picture, "right popliteal"))
                .isEqualTo(
                        "stenosis of 70\u00a0%, no aneurysm, 16\u00a0mm long, not calcified, not at the origin, not in"
                                + " a stent");
    }

    @Test
    void howNarrowALesionIsStaysOpenUntilItIsTold() {
        var picture = Pictured.picture("{\"lesions\": [{\"side\": \"right\", \"segment\": \"pedal\"}]}");
        assertThat(picture.marks()).extracting(Mark::kind).containsExactly("unknown");
        assertThat(words(picture, "right pedal")).isEqualTo("narrowing not known, length not known");
        assertThat(picture.labels()).extracting(Label::text).contains("?\u00a0% ?\u00a0mm");
    }

    @Test
    void anAneurysmIsNotTakenForANarrowing() {
        var picture = Pictured.picture("""
                {"lesions": [{"segment": "infrarenalAorta", "aneurysm": true, "diameterMm": 42, "lengthMm": 60}]}""");
        assertThat(picture.marks()).extracting(Mark::kind).containsExactly("aneurysm");
        assertThat(words(picture, "infrarenal aorta")).isEqualTo("aneurysm, 60\u00a0mm long, vessel 42\u00a0mm wide");
        assertThat(picture.labels())
                .extracting(Label::text)
                .containsSubsequence("aneurysm", "\u00f8 42\u00a0mm", "60\u00a0mm long");
    }

    @Test
    void severalLesionsOfASegmentLieApart() {
        var picture = Pictured.picture("""
                {"lesions": [
                  {"side": "left", "segment": "superficialFemoral", "stenosisPercent": 60, "lengthMm": 300},
                  {"side": "left", "segment": "superficialFemoral", "stenosisPercent": 80},
                  {"side": "left", "segment": "superficialFemoral", "stenosisPercent": 90, "ostial": true}]}""");
        var marks = picture.marks();
        assertThat(marks).extracting(Mark::percent).containsExactly(90.0, 60.0, 80.0);
        assertThat(marks.getFirst().from()).isZero();
        for (var i = 1; i < marks.size(); i++) {
            assertThat(marks.get(i).from()).isGreaterThan(marks.get(i - 1).to());
        }
        assertThat(marks.getLast().to()).isLessThanOrEqualTo(1);
        assertThat(words(picture, "left superficial femoral").split("; ", -1)).hasSize(3);
    }

    @Test
    void whatHasNoPlaceIsSaidInWordsOnly() {
        var picture = Pictured.picture("""
                {"lesions": [{"segment": "popliteal", "stenosisPercent": 75}, {"side": "left"}],
                 "procedures": [{"kind": "stent", "side": "left", "date": "2020-05-01"}]}""");
        assertThat(picture.marks()).isEmpty();
        assertThat(picture.caption()).isEqualTo("3 more in words. Pressures in mmHg.");
        assertThat(picture.lines())
                .contains(new Line(
                        "Place not known",
                        "",
                        "",
                        "lesion 1: popliteal, side not known, stenosis of 75\u00a0%, length not known; lesion 2: left"
                                + " side, narrowing not known, length not known; stent of 2020, outcome not known"));
    }

    @Test
    void stentsAndBypassesStayUnlessTheyFailed() {
        var picture = Pictured.picture("""
                {"procedures": [
                  {"kind": "bypass", "side": "right", "segment": "superficialFemoral", "date": "2021-03-01",
                   "outcome": "completed"},
                  {"kind": "stent", "side": "right", "segment": "commonIliac", "outcome": "incomplete"},
                  {"kind": "stent", "side": "left", "segment": "commonIliac", "outcome": "failed"},
                  {"kind": "angioplasty", "side": "left", "segment": "popliteal", "outcome": "completed"}]}""");
        assertThat(picture.marks()).extracting(Mark::kind).containsExactly("stent", "bypass");
        assertThat(words(picture, "right superficial femoral")).isEqualTo("bypass of 2021");
        assertThat(words(picture, "right common iliac")).isEqualTo("stent, incomplete");
        assertThat(words(picture, "left common iliac")).isEqualTo("not known");
    }

    @Test
    void anAmputatedLegEndsWhereItWasCut() {
        var picture = Pictured.picture("""
                {"legs": {"left": {"amputation": "aboveKnee"}, "right": {"amputation": "toe"}}}""");
        assertThat(picture.cuts())
                .containsExactlyInAnyOrder(new LegPicture.Cut("aboveKnee", "left"), new LegPicture.Cut("toe", "right"));
        assertThat(goneFrom(picture, "left popliteal")).isZero();
        assertThat(goneFrom(picture, "left superficial femoral")).isEqualTo(0.5);
        assertThat(goneFrom(picture, "right pedal")).isEqualTo(1);
        assertThat(words(picture, "left pedal")).isEqualTo("amputated");
        assertThat(picture.lines()).contains(new Line("Amputation", "of a toe", "above the knee", ""));
        assertThat(picture.lines()).contains(new Line("Toe, mmHg", "not known", "no foot", ""));
    }

    @Test
    void everyAmputationOfTheFormatHasItsLevel() {
        for (var level : Amputation.values()) {
            if (level != Amputation.NONE) {
                assertThat(Arteries.DRAWN.of(level).words()).isNotEmpty();
            }
        }
        assertThat(Arteries.DRAWN.cuts()).hasSize(Amputation.values().length - 1);
    }

    @Test
    void pressuresAndIndicesStandAtArmAndFoot() {
        var picture = Pictured.picture("""
                {"armPressures": {"left": 138},
                 "legs": {"left": {"pressures": {"dorsalisPedis": 44.5, "toe": 0}}, "right": {"abi": 0.6}}}""");
        // 44.5 / 138 = 0.32, counted by hand.
        assertThat(picture.labels())
                .extracting(Label::text)
                .contains("arm 138", "arm ?", "DP 44.5", "PT ?", "toe 0", "ABI 0.32", "ABI 0.60", "TBI 0.00");
        assertThat(picture.lines()).contains(new Line("Dorsalis pedis, mmHg", "not known", "44.5", ""));
    }

    @Test
    void theArteriesHangTogether() {
        for (var artery : Arteries.DRAWN.segments()) {
            if (!artery.up().isEmpty()) {
                var upper = artery(artery.up());
                var end = upper.points().getLast();
                var begin = artery.points().getFirst();
                // Within the lumen of the one before.
                assertThat(Math.hypot(begin.get(0) - end.get(0), begin.get(1) - end.get(1)))
                        .as(artery.code())
                        .isLessThan(upper.width() / 2);
            }
            if (!artery.down().isEmpty()) {
                assertThat(artery(artery.down()).row()).isGreaterThan(artery.row());
            }
            for (var point : artery.points()) {
                assertThat(point.get(0)).isBetween(Arteries.DRAWN.labels().x(), Arteries.DRAWN.width() / 2);
            }
        }
    }

    @Test
    void noLabelStandsOnAnother() {
        var pictures =
                new ArrayList<>(Pictured.demo().stream().map(Pictured::picture).toList());
        pictures.add(Pictured.picture(lesions(3)));
        pictures.add(Pictured.picture(lesions(22)));
        pictures.add(Pictured.picture(lesions(23)));
        pictures.add(Pictured.picture(lesions(200)));
        var generated = new GeneratedReferrals(20261125);
        generated.lines(200).forEach(line -> pictures.add(Pictured.picture(line)));
        for (var picture : pictures) {
            for (var column : List.of(true, false)) {
                var lines = picture.labels().stream()
                        .filter(label -> label.end() == column)
                        .map(Label::y)
                        .sorted()
                        .toList();
                for (var i = 1; i < lines.size(); i++) {
                    assertThat(lines.get(i) - lines.get(i - 1)).isGreaterThan(13.9);
                }
            }
        }
    }

    @Test
    void lesionsWithoutRoomForALabelAreCounted() {
        // 22 lines have room on a side: 62 to 356 in steps of 14.
        assertThat(Pictured.picture(lesions(22)).labels())
                .extracting(Label::text)
                .noneMatch(text -> text.endsWith("in words"));
        assertThat(Pictured.picture(lesions(23)).labels())
                .extracting(Label::text)
                .contains("+ 2 in words");
        assertThat(words(Pictured.picture(lesions(200)), "right popliteal").split("; ", -1))
                .hasSize(200);
    }

    private static String lesions(int count) {
        return "{\"lesions\": ["
                + String.join(
                        ",",
                        Stream.generate(() -> "{\"side\": \"right\", \"segment\": \"popliteal\"}")
                                .limit(count)
                                .toList())
                + "]}";
    }

    private static Arteries.Artery artery(String code) {
        return Arteries.DRAWN.segments().stream()
                .filter(artery -> artery.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    private static Place place(LegPicture picture, String name) {
        return picture.places().stream()
                .filter(place -> place.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no place " + name + " in " + names(picture)));
    }

    private static List<String> names(LegPicture picture) {
        return picture.places().stream().map(Place::name).toList();
    }

    private static String words(LegPicture picture, String name) {
        return place(picture, name).words();
    }

    private static double goneFrom(LegPicture picture, String name) {
        return place(picture, name).goneFrom();
    }
}
