package limbqueue.letter;

import java.util.List;
import org.springframework.stereotype.Service;

/** Letters to referring doctors. */
@Service
public class Letters {

    /** Unsent letters first, oldest first; then the sent ones, newest first. */
    public List<Letter> all() {
        throw new IllegalStateException("being built");
    }

    /** The letters about one referral, newest first. */
    public List<Letter> about(long referralId) {
        throw new IllegalStateException("being built");
    }

    /** The letter as PDF. */
    public byte[] pdf(long id) {
        throw new IllegalStateException("being built");
    }

    /** Records that the letter has left, and by whom. Marking it twice changes nothing. */
    public Letter markSent(long id) {
        throw new IllegalStateException("being built");
    }
}
