package limbqueue.referral;

/** There is no referral with this id. */
public class ReferralNotFoundException extends RuntimeException {

    public ReferralNotFoundException(long id) {
        super("There is no referral with the number " + id + ".");
    }
}
