package tallyback.log.sqlite;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tallyback.log.EntryJson;
import tallyback.log.SoundClip;
import tallyback.model.Entry;

/**
 * One row of the table {@code entry}. The JSON holds all of the entry; the other columns repeat
 * parts of it for queries.
 *
 * <p>The row's hash is SHA-256 (FIPS 180-4) over these fields, each written as the length of its
 * UTF-8 bytes in four bytes, most significant first, and then the bytes; a missing clip is the
 * length -1 (four bytes FF) and nothing more; numbers are written in decimal: the text {@code
 * tallyback entry 1}, previous, job, seq, id, happened_at_ms, recorded_at_ms, zone, actor, device,
 * source, certainty, words, kind, json, clip. {@code previous} is the hash of the job's entry
 * before, or 64 noughts.
 */
record EntryRow(
    String job,
    long seq,
    String id,
    long happenedAtMs,
    long recordedAtMs,
    String zone,
    String actor,
    String device,
    String source,
    String certainty,
    String words,
    String kind,
    String json,
    @Nullable String clip,
    String previous,
    String hash) {

  static final String COLUMNS =
      "job, seq, id, happened_at_ms, recorded_at_ms, zone, actor, device, source, certainty,"
          + " words, kind, json, clip, previous, hash";

  private static final String HASH_OF_WHAT = "tallyback entry 1";

  /** The row of an entry that follows the entry with the hash {@code previous}. */
  static EntryRow of(Entry entry, String previous) {
    EntryRow unhashed = columnsOf(entry, EntryJson.text(entry), previous);
    return unhashed.withHash(unhashed.computedHash());
  }

  private static EntryRow columnsOf(Entry entry, String json, String previous) {
    var tree = EntryJson.tree(entry);
    return new EntryRow(
        entry.job(),
        entry.seq(),
        entry.id(),
        entry.happenedAt().toEpochMilli(),
        entry.recordedAt().toEpochMilli(),
        entry.zone().getId(),
        entry.actor(),
        entry.device(),
        tree.get("source").textValue(),
        tree.get("certainty").textValue(),
        entry.words(),
        EntryJson.kind(entry.statement()),
        json,
        entry.clip(),
        previous,
        "");
  }

  private EntryRow withHash(String newHash) {
    return new EntryRow(
        job,
        seq,
        id,
        happenedAtMs,
        recordedAtMs,
        zone,
        actor,
        device,
        source,
        certainty,
        words,
        kind,
        json,
        clip,
        previous,
        newHash);
  }

  /** The hash these columns should have. */
  String computedHash() {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(json.length() + 512);
    for (String field : hashedFields()) {
      if (field == null) {
        bytes.writeBytes(length(-1));
      } else {
        byte[] utf8 = field.getBytes(StandardCharsets.UTF_8);
        bytes.writeBytes(length(utf8.length));
        bytes.writeBytes(utf8);
      }
    }
    return SoundClip.hashOf(bytes.toByteArray());
  }

  private List<@Nullable String> hashedFields() {
    return Arrays.asList(
        HASH_OF_WHAT,
        previous,
        job,
        Long.toString(seq),
        id,
        Long.toString(happenedAtMs),
        Long.toString(recordedAtMs),
        zone,
        actor,
        device,
        source,
        certainty,
        words,
        kind,
        json,
        clip);
  }

  private static byte[] length(int length) {
    return ByteBuffer.allocate(Integer.BYTES).putInt(length).array();
  }

  /** The columns that don't say what the entry's JSON says; empty in a sound row. */
  List<String> columnsApartFrom(Entry entry) {
    EntryRow expected = columnsOf(entry, json, previous).withHash(hash);
    List<@Nullable Object> theirs = expected.values();
    List<@Nullable Object> ours = values();
    String[] names = COLUMNS.split(", *", -1);
    List<String> apart = new ArrayList<>();
    for (int i = 0; i < names.length; i++) {
      if (!Objects.equals(ours.get(i), theirs.get(i))) {
        apart.add(names[i]);
      }
    }
    return apart;
  }

  private List<@Nullable Object> values() {
    return Arrays.asList(
        job,
        seq,
        id,
        happenedAtMs,
        recordedAtMs,
        zone,
        actor,
        device,
        source,
        certainty,
        words,
        kind,
        json,
        clip,
        previous,
        hash);
  }

  /** Fills in an {@code INSERT INTO entry (COLUMNS)} statement. */
  void bindTo(PreparedStatement insert) throws SQLException {
    List<@Nullable Object> values = values();
    for (int i = 0; i < values.size(); i++) {
      insert.setObject(i + 1, values.get(i));
    }
  }

  /** The row at the cursor of a {@code SELECT COLUMNS}. */
  static EntryRow at(ResultSet row) throws SQLException {
    return new EntryRow(
        row.getString("job"),
        row.getLong("seq"),
        row.getString("id"),
        row.getLong("happened_at_ms"),
        row.getLong("recorded_at_ms"),
        row.getString("zone"),
        row.getString("actor"),
        row.getString("device"),
        row.getString("source"),
        row.getString("certainty"),
        row.getString("words"),
        row.getString("kind"),
        row.getString("json"),
        row.getString("clip"),
        row.getString("previous"),
        row.getString("hash"));
  }
}
