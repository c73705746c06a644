package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReviewCommandTest {

  private static final Path PLAN = Path.of("demo-data/plan.yaml");

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private Path data;

  @BeforeEach
  void tell() {
    data = folder.resolve("job.tallyback");
    for (String line : List.of("six splash guard bolts off", "four splash guard bolts back on")) {
      assertEquals(0, Ran.command("enter", "--plan", PLAN, "--data", data, line).code());
    }
  }

  private Ran review(Object... more) {
    List<Object> command = new ArrayList<>(List.of("review", "--data", data));
    command.addAll(List.of(more));
    return Ran.command(command.toArray());
  }

  @Test
  void listsWhatIsDoubtfulThenFindingsWithTheirNumbers() {
    Ran ran = review();
    assertEquals(1, ran.code());
    assertEquals("DOUBTFUL ENTRIES  none", ran.outLines().get(0));
    assertEquals("FINDINGS", ran.outLines().get(1));
    assertTrue(
        ran.outLines().stream()
            .anyMatch(line -> line.contains("splash guard bolts: 4 on the machine, 2 in the tray")),
        ran.out());
  }

  @Test
  void whatWasAskedAndNeverAnsweredIsShown() {
    Ran asked =
        Ran.command("enter", "--plan", PLAN, "--data", data, "torqued the fan nuts to twenty two");
    assertTrue(asked.out().contains("22 what?"), asked.out());
    List<String> lines = review().outLines();
    assertEquals("      words: torqued the fan nuts to twenty two", lines.get(3));
    assertTrue(lines.get(4).startsWith("      asked: 22 what?"), lines.get(4));
    assertTrue(lines.get(4).endsWith("; nobody answered"), lines.get(4));
  }

  @Test
  void aChangeShowsBeforeAndAfterAndIsNoted() {
    Ran ran =
        review(
            "--change",
            "3",
            "--by",
            "Mira Tolvan",
            "--why",
            "heard it again",
            "six splash guard",
            "bolts back on");
    assertEquals("", ran.err());
    assertEquals(0, ran.code());
    assertTrue(
        ran.out()
            .contains(
                Ran.lines(
                    "splash guard bolts",
                    "  before  4 on the machine, 2 in the tray",
                    "  after   6 on the machine")),
        ran.out());
    assertTrue(ran.out().endsWith(Ran.lines("noted as no. 4: six splash guard bolts back on")));
    Ran check = Ran.command("check", "--data", data);
    assertTrue(!check.out().contains("2 in the tray"), check.out());
  }

  @Test
  void anAnswerStandsInTheCheckAndInItsJson() {
    String number =
        review().outLines().stream()
            .filter(line -> line.contains("splash guard bolts: 4 on"))
            .map(line -> line.strip().substring(0, line.strip().indexOf(' ')))
            .findFirst()
            .orElseThrow();
    Ran refused =
        review("--answer", number, "--agreed", "Orrin Vale", "--by", "Mira", "--why", "his wish");
    assertEquals(2, refused.code());
    assertTrue(refused.err().startsWith("nobody can agree to a stop"), refused.err());

    assertEquals(
        0, review("--answer", number, "--fixed", "--by", "Mira", "--why", "both found").code());
    String check = Ran.command("check", "--data", data).out();
    assertTrue(check.contains("ANSWERED"), check);
    assertTrue(check.contains("put right by Mira: both found"), check);
    String json = Ran.command("check", "--data", data, "--json").out();
    assertTrue(json.contains("\"settles\":true"), json);
    assertTrue(review().out().contains("ANSWERED"));
  }

  @Test
  void whatCanHardlyBeIsNotNotedUnasked() {
    Ran ran =
        review(
            "--add", "--at", "12:00", "--by", "M", "--why", "w", "nine splash guard bolts back on");
    assertEquals(2, ran.code());
    assertTrue(ran.err().contains("can hardly be so"), ran.err());
    assertTrue(ran.err().contains("--all-the-same"), ran.err());
    Ran look =
        review("--add", "--look", "--by", "M", "--why", "w", "two splash guard bolts back on");
    assertEquals(0, look.code());
    assertTrue(look.err().contains("nothing was noted"), look.err());
  }

  @Test
  void notesAloneAreNothingToActOn() throws IOException {
    Path plan =
        Files.writeString(
            folder.resolve("frame.yaml"),
            """
            tallyback-plan: 1
            name: Frame looked at
            machine: {name: Corven Grist 7, serial: CG-0071, sides: seen from the hopper}
            places:
              - {id: frame, say: [frame]}
            """);
    data = folder.resolve("frame.tallyback");
    assertEquals(0, Ran.command("enter", "--plan", plan, "--data", data, "frame cracked").code());
    Ran ran = review();
    assertTrue(ran.out().contains("1  NOTE frame: cracked"), ran.out());
    assertEquals(0, ran.code());
    assertEquals(0, Ran.command("check", "--data", data).code(), "as the check says");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          --withdraw 2 --why x                     | who does it? give your name with --by
          --withdraw 99 --why x --by M             | there is no entry no. 99
          --withdraw 2 --by M                      | the reason is missing; write it
          --answer 40 --fixed --why x --by M       | there is no finding 40; 'review' lists those that stand
          --answer 1 --why x --by M                | what became of it? give one of --fixed, --agreed NAME, --again DAY
          --answer 1 --again soon --why x --by M   | --again: expected a day such as 2026-03-02, found soon
          --fixed --by M                           | --fixed, --agreed and --again answer a finding: name it with --answer
          --retime 2 --by M --why x                | when did it happen? give the time with --at
          --retime 2 --at noon --by M --why x      | --at: expected a time such as 14:05 or 2026-03-02T14:05:00+01:00, found noon
          --change 3 --at 9:00 --why x --by M key out   | --at says when something happened: only --retime and --add take it
          --withdraw 3 --why x --by M key out      | "key out" is to be what? only --change, --add and --settle take WORDS
          --answer 1 --fixed --why x --by M he says | "he says" is to be what? only --change, --add and --settle take WORDS
          stray words                              | "stray words" is to be what? only --change, --add and --settle take WORDS
          """)
  void wrongUseIsToldWithItsRemedy(String words, String message) {
    Ran ran = review((Object[]) words.strip().split(" +"));
    assertEquals(Ran.failed(2, message.strip()), ran);
  }
}
