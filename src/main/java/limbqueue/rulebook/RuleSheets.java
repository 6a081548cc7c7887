package limbqueue.rulebook;

import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.LocalDate;
import limbqueue.practice.PracticeSettings;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.RuleFirings;
import org.springframework.stereotype.Service;

/** The rule book in force, to read and to print. */
@Service
@RolesAllowed({IS_PHYSICIAN, IS_MANAGER})
public class RuleSheets {

    private final RuleBooks books;
    private final PracticeSettings settings;
    private final RuleFirings firings;
    private final Clock clock;

    RuleSheets(RuleBooks books, PracticeSettings settings, RuleFirings firings, Clock clock) {
        this.books = books;
        this.settings = settings;
        this.firings = firings;
        this.clock = clock;
    }

    public RuleSheet sheet() {
        return RuleSheet.of(books.inForce(), settings.policy().id(), LocalDate.now(clock), firings.count());
    }

    /** The sheet as PDF, with the name of the practice. */
    public byte[] pdf() {
        return RulePages.print(sheet(), settings.practice().name());
    }
}
