package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class FlagWordsTest {

    @Test
    void aCodeBecomesWords() {
        assertThat(FlagWords.inShort("possible-undisclosed-attempt")).isEqualTo("possible undisclosed attempt");
    }

    @Test
    void followUpKeepsItsHyphen() {
        assertThat(FlagWords.inShort("leaves-before-follow-up")).isEqualTo("leaves before follow-up");
    }
}
