package limbqueue.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import limbqueue.testbed.OnPostgres;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.transaction.support.TransactionTemplate;

@OnPostgres
class AuditTrailIT {

    @Autowired
    private AuditTrail auditTrail;

    @Autowired
    private Activity activity;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TransactionTemplate transaction;

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update audit_entry set who = 'somebody else'",
                "delete from audit_entry",
                "truncate audit_entry",
            })
    void whatIsRecordedStaysAsItWas(String tampering) {
        actingAs.person("coordinator", () -> auditTrail.record("submitted", "R-0001"));
        assertThatThrownBy(() -> jdbc.sql(tampering).update())
                .isInstanceOf(DataAccessException.class)
                .hasMessageContaining("only ever added");
    }

    @Test
    void theNewestComesFirstUnderTheNameOfWhoDidIt() {
        actingAs.person("coordinator", () -> auditTrail.record("submitted", "R-0002"));
        actingAs.person("physician", () -> auditTrail.record("approved", "R-0002"));
        actingAs.person(
                "manager",
                () -> assertThat(activity.newestFirst(0, 2))
                        .extracting(AuditEntry::who, AuditEntry::action, AuditEntry::subject)
                        .containsExactly(
                                org.assertj.core.groups.Tuple.tuple("Dr Imogen Tarrant", "approved", "R-0002"),
                                org.assertj.core.groups.Tuple.tuple("Wren Halloway", "submitted", "R-0002")));
    }

    @Test
    void whatIsUndoneIsNotRecordedAsDone() {
        actingAs.person(
                "physician",
                () -> transaction.executeWithoutResult(status -> {
                    auditTrail.record("approved", "R-0003");
                    status.setRollbackOnly();
                }));
        actingAs.person(
                "manager",
                () -> assertThat(activity.newestFirst(0, 100))
                        .extracting(AuditEntry::subject)
                        .doesNotContain("R-0003"));
    }

    @Test
    void nothingIsRecordedUnderNobodysName() {
        assertThatThrownBy(() -> auditTrail.record("submitted", "R-0004")).isInstanceOf(AccessDeniedException.class);
    }
}
