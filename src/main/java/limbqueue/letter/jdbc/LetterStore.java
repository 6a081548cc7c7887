package limbqueue.letter.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import limbqueue.booking.StepKind;
import limbqueue.letter.Letter;
import limbqueue.letter.LetterKind;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes letters. */
@Repository
public class LetterStore {

    private final JdbcClient jdbc;

    LetterStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * Adds a letter just written.
     *
     * @param decision id of the decision it tells of, if it tells of one
     * @param visit the step whose date it tells of, if it tells of one
     * @param visitAt that date, on the clock of the practice
     * @return its id
     */
    public long add(
            long referral,
            Optional<Long> decision,
            Optional<StepKind> visit,
            Optional<LocalDateTime> visitAt,
            LetterKind kind,
            String reference,
            String patient,
            String recipient,
            String channel,
            LocalDate dated,
            Instant writtenAt,
            String parts,
            String text) {
        return jdbc.sql("""
                insert into letter (referral, decision, visit, visit_at, kind, reference, patient, recipient, channel, dated,
                                    written_at, parts, text)
                values (:referral, :decision, :visit, :visitAt, :kind, :reference, :patient, :recipient, :channel, :dated,
                        :writtenAt, cast(:parts as json), :text)
                returning id
                """)
                .param("referral", referral)
                .param("decision", decision.orElse(null))
                .param("visit", visit.map(StepKind::name).orElse(null))
                .param("visitAt", visitAt.orElse(null), Types.TIMESTAMP)
                .param("kind", kind.name())
                .param("reference", reference)
                .param("patient", patient)
                .param("recipient", recipient)
                .param("channel", channel)
                .param("dated", dated)
                .param("writtenAt", writtenAt.atOffset(ZoneOffset.UTC))
                .param("parts", parts)
                .param("text", text)
                .query(Long.class)
                .single();
    }

    /** Whether the referring doctor has been told that the referral arrived. */
    public boolean receivedWritten(long referral) {
        return jdbc.sql("""
                select exists (select 1 from letter where referral = :referral and kind = 'RECEIVED')
                """).param("referral", referral).query(Boolean.class).single();
    }

    /**
     * What the last letter about a date tells.
     *
     * @param letter its id
     */
    public record StandingVisit(long letter, LocalDateTime at, String text) {}

    /**
     * The date of this step that the last letter about it told of; empty if there was none, or it was cancelled.
     *
     * @param toPatient whether of letters to the patient, else of those to the referring doctor
     */
    public Optional<StandingVisit> standingVisit(long referral, StepKind step, boolean toPatient) {
        return jdbc.sql("""
                select id, visit_at, text
                from letter
                where id = (select max(id)
                            from letter
                            where referral = :referral and visit = :step and withdrawn_at is null
                                  and (kind like 'PATIENT%') = :toPatient)
                      and kind not in ('CANCELLED', 'PATIENT_CANCELLED')
                """)
                .param("referral", referral)
                .param("step", step.name())
                .param("toPatient", toPatient)
                .query((row, number) -> new StandingVisit(
                        row.getLong("id"), row.getObject("visit_at", LocalDateTime.class), row.getString("text")))
                .optional();
    }

    /** The letters about the date of this step that have not left and are not withdrawn. */
    public List<Long> unsentVisits(long referral, StepKind step, boolean toPatient) {
        return jdbc.sql("""
                select id
                from letter
                where referral = :referral and visit = :step and sent_at is null and withdrawn_at is null
                      and (kind like 'PATIENT%') = :toPatient
                order by id
                """)
                .param("referral", referral)
                .param("step", step.name())
                .param("toPatient", toPatient)
                .query((row, number) -> row.getLong("id"))
                .list();
    }

    /** Withdraws a letter that has not left. */
    public void withdrawUnsent(long id, Instant at) {
        jdbc.sql("update letter set withdrawn_at = :at where id = :id and sent_at is null and withdrawn_at is null")
                .param("at", at.atOffset(ZoneOffset.UTC))
                .param("id", id)
                .update();
    }

    /** Unsent letters first, oldest first; then the sent ones, newest first. */
    public List<Letter> all() {
        return jdbc.sql("""
                select id, referral, reference, patient, kind, recipient, channel, dated, text, sent_at, sent_by
                from letter
                where withdrawn_at is null
                order by sent_at is not null, case when sent_at is null then written_at end, sent_at desc, id
                """).query(LetterStore::letter).list();
    }

    /** The letters about one referral, newest first. */
    public List<Letter> about(long referral) {
        return jdbc.sql("""
                select id, referral, reference, patient, kind, recipient, channel, dated, text, sent_at, sent_by
                from letter
                where referral = :referral and withdrawn_at is null
                order by id desc
                """)
                .param("referral", referral)
                .query(LetterStore::letter)
                .list();
    }

    public Optional<Letter> find(long id) {
        return jdbc.sql("""
                select id, referral, reference, patient, kind, recipient, channel, dated, text, sent_at, sent_by
                from letter
                where id = :id
                """).param("id", id).query(LetterStore::letter).optional();
    }

    /** The parts of a letter, as JSON text. */
    public Optional<String> parts(long id) {
        return jdbc.sql("""
                select parts::text as parts
                from letter
                where id = :id
                """).param("id", id).query(String.class).optional();
    }

    /** The printed page, if the letter has been printed. */
    public Optional<byte[]> pdf(long id) {
        return jdbc.sql("""
                select pdf
                from letter
                where id = :id and pdf is not null
                """).param("id", id).query(byte[].class).optional();
    }

    /** Keeps the printed page, unless there is one already. */
    public void keepPdf(long id, byte[] pdf) {
        jdbc.sql("""
                update letter
                set pdf = :pdf
                where id = :id and pdf is null
                """).param("id", id).param("pdf", pdf).update();
    }

    /** When a letter that tells of a decision was written; nothing for one that tells of none. */
    public Optional<Instant> decisionWrittenAt(long id) {
        return jdbc.sql("select written_at from letter where id = :id and decision is not null")
                .param("id", id)
                .query((row, number) ->
                        row.getObject("written_at", OffsetDateTime.class).toInstant())
                .optional();
    }

    /** Whether what a letter tells of does not hold any more. */
    public boolean withdrawn(long id) {
        return jdbc.sql("select exists (select from letter where id = :id and withdrawn_at is not null)")
                .param("id", id)
                .query(Boolean.class)
                .single();
    }

    /** Withdraws the letter that tells of a decision; false if it has left. */
    public boolean withdraw(long decision, Instant at) {
        jdbc.sql("update letter set withdrawn_at = :at where decision = :decision and sent_at is null")
                .param("at", at.atOffset(ZoneOffset.UTC))
                .param("decision", decision)
                .update();
        return jdbc.sql("select not exists (select from letter where decision = :decision and sent_at is not null)")
                .param("decision", decision)
                .query(Boolean.class)
                .single();
    }

    /** Locks the letter for the rest of the transaction. */
    public void lock(long id) {
        jdbc.sql("select id from letter where id = :id for update")
                .param("id", id)
                .query(Long.class)
                .optional();
    }

    /** Marks a letter as sent; false if it was marked before, or withdrawn. */
    public boolean markSent(long id, Instant at, String by) {
        return jdbc.sql("""
                        update letter
                        set sent_at = :at, sent_by = :by
                        where id = :id and sent_at is null and withdrawn_at is null
                        """)
                        .param("id", id)
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .param("by", by)
                        .update()
                == 1;
    }

    private static Letter letter(ResultSet row, int number) throws SQLException {
        return new Letter(
                row.getLong("id"),
                row.getLong("referral"),
                row.getString("reference"),
                row.getString("patient"),
                LetterKind.valueOf(row.getString("kind")),
                row.getString("recipient"),
                row.getString("channel"),
                row.getObject("dated", LocalDate.class),
                row.getString("text"),
                Optional.ofNullable(row.getObject("sent_at", OffsetDateTime.class))
                        .map(OffsetDateTime::toInstant),
                Optional.ofNullable(row.getString("sent_by")));
    }
}
