package limbqueue.reading;

import java.util.EnumSet;
import java.util.Set;

/** A side of the body; where findings are listed the left comes first. */
enum Side {
    LEFT("left"),
    RIGHT("right");

    final String word;

    Side(String word) {
        this.word = word;
    }

    Side other() {
        return this == LEFT ? RIGHT : LEFT;
    }

    /** The path of this leg's field {@code name}. */
    String leg(String name) {
        return "legs." + word + "." + name;
    }

    static Set<Side> both() {
        return EnumSet.allOf(Side.class);
    }
}
