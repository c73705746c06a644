package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.sqlite.Bounds;

/**
 * Data files that can't be used and jobs that take nothing more, given to the commands: one line
 * with the remedy, and the file is as it was.
 */
class BadDataFileTest {

  private static final Path PLAN = Path.of("demo-data/plan.yaml");

  @TempDir private Path folder;
  private Path data = Path.of("");

  @BeforeEach
  void nameDataFile() {
    data = folder.resolve("job.tallyback");
  }

  private Ran enter(String words) {
    return Ran.command("enter", "--plan", PLAN, "--data", data, words);
  }

  private void oneEntryIsNoted() {
    assertEquals(new Ran(0, Ran.lines("noted: off belly pan"), ""), enter("belly pan off"));
  }

  private void execute(String sql) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + data);
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  private void assertRefusedByAllAndUntouched(String message) throws IOException {
    byte[] before = Files.readAllBytes(data);
    Ran refused = Ran.failed(2, data + ": " + message);
    assertEquals(refused, enter("belly pan off"));
    assertEquals(refused, Ran.command("check", "--data", data));
    assertEquals(refused, Ran.command("check", "--data", data, "--json"));
    assertEquals(refused, Ran.command("jobs", "--data", data));
    assertEquals(refused, Ran.command("verify", "--data", data));
    assertEquals(refused, Ran.command("close", "--data", data));
    assertEquals(
        refused, Ran.command("report", "--data", data, "--out", folder.resolve("record.html")));
    assertEquals(
        refused,
        Ran.command("hear", "demo-data/audio/004-090120.wav", "--plan", PLAN, "--data", data));
    assertArrayEquals(before, Files.readAllBytes(data));
    try (var files = Files.list(folder)) {
      assertEquals(List.of(data), files.toList());
    }
  }

  @Test
  void notThere() throws IOException {
    Ran refused =
        Ran.failed(2, data + ": there is no such data file; name another, or note something first");
    assertEquals(refused, Ran.command("check", "--data", data));
    assertEquals(refused, Ran.command("jobs", "--data", data));
    assertEquals(refused, Ran.command("verify", "--data", data));
    assertEquals(refused, Ran.command("close", "--data", data));
    try (var files = Files.list(folder)) {
      assertEquals(List.of(), files.toList());
    }
  }

  @Test
  void notOurs() throws IOException {
    Files.writeString(data, "shopping list");
    assertRefusedByAllAndUntouched(
        "expected a Tallyback data file, found something else; it was left as it is; name another"
            + " file, or one that doesn't exist yet to start afresh");
  }

  @Test
  void theDatabaseOfAnotherProgram() throws IOException, SQLException {
    execute("CREATE TABLE shelf (a)");
    assertRefusedByAllAndUntouched(
        "expected a Tallyback data file, found the SQLite file of another program; it was left as"
            + " it is; name another file, or one that doesn't exist yet to start afresh");
  }

  @Test
  void newer() throws IOException, SQLException {
    oneEntryIsNoted();
    execute("PRAGMA user_version = 4");
    assertRefusedByAllAndUntouched(
        "written by a newer version of Tallyback (data schema 4, this version reads up to 3); use"
            + " the newer version");
  }

  @Test
  void damageInAnEarlierJobOnTheMachineKeepsNobodyFromChecking() throws SQLException {
    oneEntryIsNoted();
    assertEquals(0, Ran.command("close", "--data", data).code());
    assertEquals(
        0,
        Ran.command("enter", "--plan", PLAN, "--data", data, "--job", "now", "belly pan off")
            .code());
    execute("DROP TRIGGER entry_never_changed");
    execute("UPDATE entry SET words = 'otherwise' WHERE job = 'job-1' AND seq = 2");
    Ran check = Ran.command("check", "--data", data, "--job", "now");
    assertEquals("", check.err());
    assertEquals(1, check.code());
    assertEquals(1, Ran.command("verify", "--data", data).code());
    assertEquals(3, Ran.command("check", "--data", data, "--job", "job-1").code());
  }

  @Test
  void lockedByAnotherWriterWhoIsNamedAndGoesOn() throws IOException {
    OwnProcess other =
        OwnProcess.start(folder, List.of(), List.of(), "enter", "--plan", PLAN, "--data", data);
    PrintStream lines = other.input();
    lines.println("belly pan off");
    assertEquals("noted: off belly pan", other.line());
    Ran locked = enter("splash guard off");
    assertEquals(3, locked.code());
    assertEquals("", locked.out());
    assertTrue(
        locked
            .err()
            .matches(
                Pattern.quote(data + ": locked: process " + other.pid() + " on ")
                    + "\\S+, since \\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\dZ, is writing it; close"
                    + " that first\\R"),
        locked.err());
    Ran looked = Ran.command("check", "--data", data);
    assertEquals("", looked.err(), "looking is allowed meanwhile");
    assertEquals(1, looked.code());
    lines.println("splash guard off");
    assertEquals("noted: off splash guard", other.line());
    assertEquals(0, other.finish().code());
    assertEquals(
        Ran.lines("1 job, 3 entries, 0 sound clips: all in order"),
        Ran.command("verify", "--data", data).out());
  }

  @Test
  void readOnlyCanBeCheckedAndNotWritten() throws IOException {
    oneEntryIsNoted();
    Files.setPosixFilePermissions(data, PosixFilePermissions.fromString("r--r--r--"));
    assertEquals(
        Ran.failed(
            3,
            data
                + ": it can't be opened for writing: the file or its folder is read-only; make both"
                + " writable, or use another file"),
        OwnProcess.start(
                folder,
                Bounds.byRights(),
                List.of(),
                "enter",
                "--plan",
                PLAN,
                "--data",
                data,
                "splash guard off")
            .finish());
    Ran checked =
        OwnProcess.start(folder, Bounds.byRights(), List.of(), "check", "--data", data, "--json")
            .finish();
    assertEquals("", checked.err());
    assertEquals(1, checked.code());
    assertEquals(
        Ran.lines("1 job, 2 entries, 0 sound clips: all in order"),
        Ran.command("verify", "--data", data).out());
  }

  @Test
  void onAFullDiskWhatWasNotedStaysAndTheEndIsSaid() throws IOException {
    OwnProcess noting =
        OwnProcess.start(
            folder,
            Bounds.fileLimit(300),
            Bounds.nativePartOutsideTheLimit(),
            "enter",
            "--plan",
            PLAN,
            "--data",
            data);
    PrintStream lines = noting.input();
    int acknowledged = 0;
    do {
      lines.println("belly pan off");
    } while (noting.line() != null && ++acknowledged < 1000);
    Ran ended = noting.finish();
    assertEquals(3, ended.code());
    assertTrue(
        ended
            .err()
            .matches(
                Pattern.quote(
                        data + ": the entry was not noted: reading or writing the disk failed")
                    + " \\(.*\\); check the disk, its free space and any size limit, then try"
                    + " again\\R"),
        ended.err());
    assertTrue(acknowledged > 3, "noted " + acknowledged);
    Ran verified = Ran.command("verify", "--data", data);
    int entries =
        Integer.parseInt(verified.out().replaceAll(".*jobs?, (\\d+) entries(?s:.*)", "$1"));
    // The opening is an entry too; the one that failed may have reached the disk unacknowledged.
    assertTrue(entries == acknowledged + 1 || entries == acknowledged + 2, verified.out());
    assertEquals(0, verified.code(), verified.out());
    assertEquals(0, enter("splash guard off").code(), "with space it goes on");
  }

  @Test
  void aRecordThatFindsNoSpaceLeavesTheOldOne() throws IOException {
    oneEntryIsNoted();
    Path page = Files.writeString(folder.resolve("record.html"), "the old one");
    Ran ran =
        OwnProcess.start(
                folder,
                Bounds.fileLimit(33),
                Bounds.nativePartOutsideTheLimit(),
                "report",
                "--data",
                data,
                "--out",
                page)
            .finish();
    assertEquals(
        Ran.failed(
            3, page + ": can't be written (File too large); check the folder and its free space"),
        ran);
    assertEquals("the old one", Files.readString(page));
    try (var files = Files.list(folder)) {
      assertEquals(List.of(), files.filter(each -> each.toString().endsWith(".part")).toList());
    }
  }

  @Test
  void aClosedJob() {
    oneEntryIsNoted();
    assertTrue(
        Ran.command("close", "--data", data).out().startsWith("job-1 is closed\nseal job-1/3/"));
    Ran refused =
        Ran.failed(
            2,
            "job job-1: is closed, nothing more is noted in it; begin a visit to it, or start another job under a new name");
    assertEquals(refused, Ran.command("close", "--data", data));
    assertEquals(
        refused,
        Ran.command("enter", "--plan", PLAN, "--data", data, "--job", "job-1", "splash guard off"));
    assertEquals(
        refused,
        Ran.command(
            "hear",
            "demo-data/audio/004-090120.wav",
            "--plan",
            PLAN,
            "--data",
            data,
            "--job",
            "job-1"));
    assertTrue(
        Ran.command("verify", "--data", data)
            .out()
            .matches(
                "seal job-1/3/([0-9a-f]{4}-?){6}\\R1 job, 3 entries, 0 sound clips: all in order\\R"));
  }

  @Test
  void anUnknownJob() {
    oneEntryIsNoted();
    Ran refused = Ran.failed(2, "no job \"monday\" in this data file; it holds: job-1");
    assertEquals(refused, Ran.command("check", "--data", data, "--job", "monday"));
    assertEquals(refused, Ran.command("close", "--data", data, "--job", "monday"));
    assertEquals(
        refused,
        Ran.command(
            "report", "--data", data, "--job", "monday", "--out", folder.resolve("record.html")));
  }

  @Test
  void aJobNamedForTheFirstTimeBesideOthersIsOpenedAndThatIsSaid() {
    oneEntryIsNoted();
    assertEquals(
        new Ran(
            0,
            Ran.lines("noted: off belly pan"),
            Ran.lines("job monday is new in this data file; 'jobs' lists the others")),
        Ran.command("enter", "--plan", PLAN, "--data", data, "--job", "monday", "belly pan off"));
  }

  @Test
  void anotherPlan() throws IOException {
    oneEntryIsNoted();
    Path other = folder.resolve("other.yaml");
    Files.writeString(other, Files.readString(PLAN) + "\n# changed\n");
    Ran refused = Ran.command("enter", "--plan", other, "--data", data, "splash guard off");
    assertEquals(2, refused.code());
    assertTrue(
        refused
            .err()
            .matches(
                "job job-1: expected the plan it was opened with \\(Coolant pump, belt, thermostat"
                    + " and hoses renewed, hash [0-9a-f]{12}\\), found another \\(Coolant pump,"
                    + " belt, thermostat and hoses renewed, hash [0-9a-f]{12}\\); use that plan, or"
                    + " name the job that is meant \\('jobs' lists them\\), or a new one\\R"),
        refused.err());
    assertEquals(
        Ran.lines("1 job, 2 entries, 0 sound clips: all in order"),
        Ran.command("verify", "--data", data).out());
  }
}
