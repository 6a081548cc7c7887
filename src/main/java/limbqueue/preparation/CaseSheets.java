package limbqueue.preparation;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import limbqueue.access.AuditTrail;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.Referrals;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The sheet that goes to the room with a case. */
@Service
public class CaseSheets {

    private final Preparation preparation;
    private final Referrals referrals;
    private final PracticeSettings settings;
    private final AuditTrail auditTrail;

    CaseSheets(Preparation preparation, Referrals referrals, PracticeSettings settings, AuditTrail auditTrail) {
        this.preparation = preparation;
        this.referrals = referrals;
        this.settings = settings;
        this.auditTrail = auditTrail;
    }

    /**
     * The sheet of a case as it stands now, as PDF.
     *
     * @throws limbqueue.referral.ReferralNotFoundException if there is no referral with this id
     */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional
    public byte[] pdf(long id) {
        var prepared = preparation.get(id);
        auditTrail.record(
                "printed the case sheet of", prepared.proposed().referral().reference());
        return CaseSheet.print(
                prepared,
                referrals.decisions(id),
                settings.practice().name(),
                settings.policy(),
                preparation.expectedMinutes(prepared),
                preparation.today());
    }
}
