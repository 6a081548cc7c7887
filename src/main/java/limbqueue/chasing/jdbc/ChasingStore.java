package limbqueue.chasing.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.chasing.OutsideRecord;
import limbqueue.chasing.PhoneCall;
import limbqueue.chasing.RecordsLetter;
import limbqueue.chasing.RecordsRequest;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes records requests, their letters and telephone calls. */
@Repository
public class ChasingStore {

    private final JdbcClient jdbc;

    ChasingStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The requests of these referrals, oldest first. */
    public List<RecordsRequest> requests(Collection<Long> referrals) {
        return jdbc.sql("""
                select id, referral, version, hospital, address, about, entry_list, entry_facts, report, images, asked_on,
                       due_on, reminders, report_came_on, images_came_on, given_up_because, author, at
                from records_request
                where referral = any (:referrals)
                order by id
                """)
                .param("referrals", referrals.toArray(Long[]::new))
                .query(ChasingStore::request)
                .list();
    }

    public Optional<RecordsRequest> request(long id) {
        return jdbc.sql("""
                select id, referral, version, hospital, address, about, entry_list, entry_facts, report, images, asked_on,
                       due_on, reminders, report_came_on, images_came_on, given_up_because, author, at
                from records_request
                where id = :id
                """).param("id", id).query(ChasingStore::request).optional();
    }

    /** Adds a request, whose id is given by the database, at version 1. */
    public long add(RecordsRequest request, Person author) {
        return jdbc.sql("""
                insert into records_request (referral, hospital, address, about, entry_list, entry_facts, report, images,
                                             asked_on, due_on, account, author, at)
                values (:referral, :hospital, :address, :about, :list, :facts, :report, :images, :askedOn, :dueOn, :account,
                        :author, :at)
                returning id
                """)
                .param("referral", request.referralId())
                .param("hospital", request.hospital())
                .param("address", request.address())
                .param("about", request.about())
                .param("list", request.entry().map(entry -> entry.list().path()).orElse(null))
                .param("facts", request.entry().map(OutsideRecord.Entry::facts).orElse(null))
                .param("report", request.report())
                .param("images", request.images())
                .param("askedOn", request.askedOn())
                .param("dueOn", request.dueOn())
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", request.at().atOffset(ZoneOffset.UTC))
                .query(Long.class)
                .single();
    }

    /**
     * Puts a request where {@code request} says, over the version before its.
     *
     * @return false if it is no longer at that version
     */
    public boolean put(RecordsRequest request, Person author) {
        return jdbc.sql("""
                        update records_request
                        set version = :version, due_on = :dueOn, reminders = :reminders, report_came_on = :reportCameOn,
                            images_came_on = :imagesCameOn, given_up_because = :givenUpBecause, account = :account,
                            author = :author, at = :at
                        where id = :id and version = :version - 1
                        """)
                        .param("id", request.id())
                        .param("version", request.version())
                        .param("dueOn", request.dueOn())
                        .param("reminders", request.reminders())
                        .param("reportCameOn", request.reportCameOn().orElse(null))
                        .param("imagesCameOn", request.imagesCameOn().orElse(null))
                        .param("givenUpBecause", request.givenUpBecause().orElse(null))
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", request.at().atOffset(ZoneOffset.UTC))
                        .update()
                == 1;
    }

    /** @param parts the letter part by part, as JSON text */
    public void add(RecordsLetter letter, String parts, Person author, OffsetDateTime at) {
        jdbc.sql("""
                insert into records_letter (request, number, dated, parts, text, account, author, at)
                values (:request, :number, :dated, cast(:parts as json), :text, :account, :author, :at)
                """)
                .param("request", letter.requestId())
                .param("number", letter.number())
                .param("dated", letter.dated())
                .param("parts", parts)
                .param("text", letter.text())
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at)
                .update();
    }

    /** The letters about one referral, in the order in which they were written. */
    public List<RecordsLetter> letters(long referral) {
        return jdbc.sql("""
                select l.id, l.request, l.number, l.dated, l.text
                from records_letter l join records_request r on r.id = l.request
                where r.referral = :referral
                order by l.id
                """)
                .param("referral", referral)
                .query((row, number) -> new RecordsLetter(
                        row.getLong("id"),
                        row.getLong("request"),
                        row.getInt("number"),
                        row.getObject("dated", LocalDate.class),
                        row.getString("text")))
                .list();
    }

    /** The parts of a letter, as JSON text. */
    public Optional<String> parts(long letter) {
        return jdbc.sql("""
                select parts::text as parts
                from records_letter
                where id = :id
                """).param("id", letter).query(String.class).optional();
    }

    /** The printed page, if the letter has been printed. */
    public Optional<byte[]> pdf(long letter) {
        return jdbc.sql("""
                select pdf
                from records_letter
                where id = :id and pdf is not null
                """).param("id", letter).query(byte[].class).optional();
    }

    /** Keeps the printed page, unless there is one already. */
    public void keepPdf(long letter, byte[] pdf) {
        jdbc.sql("""
                update records_letter
                set pdf = :pdf
                where id = :id and pdf is null
                """).param("id", letter).param("pdf", pdf).update();
    }

    /** The calls about these referrals, newest first. */
    public List<PhoneCall> calls(Collection<Long> referrals) {
        return jdbc.sql("""
                select id, referral, kind, request, outcome, called_on, spoke_with, said, again_on, author, at
                from phone_call
                where referral = any (:referrals)
                order by called_on desc, id desc
                """)
                .param("referrals", referrals.toArray(Long[]::new))
                .query(ChasingStore::call)
                .list();
    }

    /** Adds a call, whose id is given by the database. */
    public void add(PhoneCall call, Person author) {
        jdbc.sql("""
                insert into phone_call (referral, kind, request, outcome, called_on, spoke_with, said, again_on, account,
                                        author, at)
                values (:referral, :kind, :request, :outcome, :calledOn, :spokeWith, :said, :againOn, :account, :author, :at)
                """)
                .param("referral", call.referralId())
                .param("kind", call.kind().name())
                .param("request", call.requestId().orElse(null))
                .param("outcome", call.outcome().map(Enum::name).orElse(null))
                .param("calledOn", call.calledOn())
                .param("spokeWith", call.spokeWith())
                .param("said", call.said())
                .param("againOn", call.againOn().orElse(null))
                .param("account", author.id())
                .param("author", call.author())
                .param("at", call.at().atOffset(ZoneOffset.UTC))
                .update();
    }

    private static RecordsRequest request(ResultSet row, int number) throws SQLException {
        var list = row.getString("entry_list");
        return new RecordsRequest(
                row.getLong("id"),
                row.getLong("referral"),
                row.getInt("version"),
                row.getString("hospital"),
                row.getString("address"),
                row.getString("about"),
                list == null
                        ? Optional.empty()
                        : Optional.of(new OutsideRecord.Entry(
                                OutsideRecord.EntryList.of(list), row.getString("entry_facts"))),
                row.getBoolean("report"),
                row.getBoolean("images"),
                row.getObject("asked_on", LocalDate.class),
                row.getObject("due_on", LocalDate.class),
                row.getInt("reminders"),
                Optional.ofNullable(row.getObject("report_came_on", LocalDate.class)),
                Optional.ofNullable(row.getObject("images_came_on", LocalDate.class)),
                Optional.ofNullable(row.getString("given_up_because")),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }

    private static PhoneCall call(ResultSet row, int number) throws SQLException {
        return new PhoneCall(
                row.getLong("id"),
                row.getLong("referral"),
                PhoneCall.Kind.valueOf(row.getString("kind")),
                Optional.ofNullable(row.getObject("request", Long.class)),
                Optional.ofNullable(row.getString("outcome")).map(PhoneCall.Outcome::valueOf),
                row.getObject("called_on", LocalDate.class),
                row.getString("spoke_with"),
                row.getString("said"),
                Optional.ofNullable(row.getObject("again_on", LocalDate.class)),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }
}
