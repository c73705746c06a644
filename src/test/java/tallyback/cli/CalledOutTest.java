package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code hear --attention}: what is taken, what is kept, and that nothing else is. */
class CalledOutTest {

  private static final Path CALLS = Path.of("src/test/resources/attention");

  @TempDir private Path folder;

  private Ran hear(Object... files) {
    Object[] options = {
      "--plan",
      "demo-data/plan.yaml",
      "--data",
      data(),
      "--at",
      "2026-03-02T10:14:00Z",
      "--attention",
      "toolmaker"
    };
    Object[] args = new Object[1 + files.length + options.length];
    args[0] = "hear";
    System.arraycopy(files, 0, args, 1, files.length);
    System.arraycopy(options, 0, args, 1 + files.length, options.length);
    return Ran.command(args);
  }

  private Path data() {
    return folder.resolve("job.tallyback");
  }

  private int count(String what) throws SQLException {
    try (Connection file = DriverManager.getConnection("jdbc:sqlite:" + data());
        Statement statement = file.createStatement();
        ResultSet rows = statement.executeQuery("select count(*) from " + what)) {
      return rows.getInt(1);
    }
  }

  @Test
  void anEntryBehindTheWordIsNoted() throws SQLException {
    assertEquals(
        List.of("    0.35 s  noted     off 6 × pump bolts"),
        hear(CALLS.resolve("called.wav")).outLines());
    assertEquals(2, count("entry"), "the opening and the entry");
  }

  @Test
  void anEntryBehindTheWordAndAPauseIsNotedToo() throws SQLException {
    assertEquals(
        List.of(
            "    0.35 s  rejected  the attention word; go on",
            "    2.47 s  noted     off belly pan"),
        hear(CALLS.resolve("alone.wav")).outLines());
    assertEquals(1, count("clip"), "the word itself is not kept");
  }

  @Test
  void withoutTheWordNothingIsKeptNoRowAndNoSound() throws SQLException {
    assertEquals(
        List.of("    0.34 s  rejected  no entry", "    0.21 s  rejected  no entry"),
        hear(CALLS.resolve("uncalled.wav"), "demo-data/audio/004-090120.wav").outLines());
    assertEquals(1, count("entry"), "the opening");
    assertEquals(0, count("clip"));
  }

  @Test
  void whatIsNotUnderstoodBehindTheWordIsKeptShownCountedAndSettled() throws SQLException {
    assertEquals(
        List.of("    0.35 s  rejected  not understood, kept; say it again another way"),
        hear(CALLS.resolve("babble.wav")).outLines());
    assertEquals(2, count("entry"));
    assertEquals(1, count("clip"));
    Ran check = Ran.command("check", "--data", data());
    assertEquals(1, check.code());
    String text = check.out().replaceAll("\\s+", " ");
    assertTrue(text.contains("found 1 thing said was not understood: at"), check.out());
    assertTrue(text.contains("told no. 2 at 10:14 (unconfirmed)"), check.out());
    assertEquals(
        0,
        Ran.command(
                "enter",
                "--plan",
                "demo-data/plan.yaml",
                "--data",
                data(),
                "never mind what you missed")
            .code());
    assertEquals(0, Ran.command("check", "--data", data()).code());
  }

  @Test
  void theSameRecordingKeepsItOnce() throws SQLException {
    hear(CALLS.resolve("babble.wav"));
    hear(CALLS.resolve("babble.wav"));
    assertEquals(2, count("entry"));
  }

  @Test
  void aWordThatEntriesUseIsRefused() {
    assertEquals(
        Ran.failed(
            2,
            "--attention bolts: expected a word that no entry uses; choose another, such as"
                + " toolmaker"),
        Ran.command(
            "hear",
            CALLS.resolve("called.wav"),
            "--plan",
            "demo-data/plan.yaml",
            "--attention",
            "bolts"));
  }
}
