package tallyback.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tallyback.app.CheckedJob;
import tallyback.app.ReviewDesk;
import tallyback.app.WrongUse;
import tallyback.log.JobLog;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Statement.FindingEnd;
import tallyback.report.JobRecord;
import tallyback.report.ReviewText;
import tallyback.report.SafeText;
import tallyback.report.ShopTime;
import tallyback.report.StatementText;
import tallyback.report.Trail;
import tallyback.review.Act;
import tallyback.review.ClockTime;
import tallyback.review.Doubt;
import tallyback.review.Proposal;
import tallyback.review.Review;
import tallyback.review.ReviewRefused;

/** {@code review}: a job looked at again, and put right where it was noted wrong. */
@Command(
    name = "review",
    mixinStandardHelpOptions = true,
    description = {
      "Shows what is doubtful in a job, and puts right what was noted wrong.",
      "Without an act it lists: doubtful entries first, then findings with their numbers, then what"
          + " was answered. With one it shows what that changes, and notes it behind what is there:"
          + " who, when and why. Nothing is overwritten; a job that was closed keeps its seal."
    })
final class ReviewCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  @ArgGroup(exclusive = true)
  private Asked asked = new Asked();

  /** What is asked for: one of these. */
  static final class Asked {
    @Option(
        names = "--answer",
        paramLabel = "FINDING",
        description =
            "The finding of this number, such as 2, or 2.1 for what follows from it: with --fixed,"
                + " --agreed or --again.")
    private @Nullable String answer;

    @Option(
        names = "--change",
        paramLabel = "NO",
        description = "The entry of this number says WORDS instead.")
    private @Nullable Long change;

    @Option(
        names = "--confirm",
        paramLabel = "NO",
        description = "The entry of this number, which was in doubt, is right.")
    private @Nullable Long confirm;

    @Option(
        names = "--withdraw",
        paramLabel = "NO",
        description = "The entry of this number doesn't count.")
    private @Nullable Long withdraw;

    @Option(
        names = "--retime",
        paramLabel = "NO",
        description = "The entry of this number happened --at another time.")
    private @Nullable Long retime;

    @Option(
        names = "--add",
        description =
            "WORDS were forgotten, and happened --at a time; without --at you did it just now.")
    private boolean add;

    @Option(
        names = "--settle",
        paramLabel = "NO",
        description =
            "What was not understood under this number was WORDS; without WORDS it is not wanted.")
    private @Nullable Long settle;
  }

  @Option(names = "--fixed", description = "Answer: it was put right; --why says what was done.")
  private boolean fixed;

  @Option(
      names = "--agreed",
      paramLabel = "NAME",
      description = "Answer: it stays as it is, and NAME agreed. Not for a stop.")
  private @Nullable String agreed;

  @Option(
      names = "--again",
      paramLabel = "DAY",
      description = "Answer: it is to be looked at again on that day, such as 2026-03-02.")
  private @Nullable String again;

  @Option(
      names = "--at",
      paramLabel = "TIME",
      description =
          "When it happened, such as 14:05 (on the day of the job) or"
              + " 2026-03-02T14:05:00+01:00.")
  private @Nullable String at;

  @Option(names = "--by", paramLabel = "NAME", description = "Your name.")
  private @Nullable String by;

  @Option(names = "--why", paramLabel = "WORDS", description = "Why, or what was done.")
  private @Nullable String why;

  @Option(names = "--all-the-same", description = "Note it although it can hardly be so.")
  private boolean allTheSame;

  @Option(names = "--look", description = "Only show what it would change.")
  private boolean look;

  @Parameters(arity = "0..*", paramLabel = "WORDS", description = "An entry, as in 'enter'.")
  private List<String> words = List.of();

  ReviewCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    Path file = data.toRead();
    CheckedJob checked = CheckedJob.read(file, job.id());
    ReviewDesk desk = new ReviewDesk();
    Act act = act(checked);
    if (act == null) {
      return list(file, checked, desk);
    }
    ReviewDesk.Reviewer reviewer = new ReviewDesk.Reviewer(name(), "terminal", console.clock());
    if (look) {
      return look(file, checked, desk, act, reviewer);
    }
    try (JobLog log = SqliteLogs.openForWriting(data.toGoOn(console))) {
      ReviewDesk.Done done =
          desk.act(
              log,
              checked.job(),
              act,
              reviewer,
              allTheSame ? ReviewDesk.Manner.NOTE_ALL_THE_SAME : ReviewDesk.Manner.NOTE,
              "review-" + UUID.randomUUID());
      return tell(done, checked);
    } catch (ReviewRefused e) {
      throw new WrongUse(String.valueOf(e.getMessage()));
    }
  }

  private String name() {
    if (by == null || by.isBlank()) {
      throw new WrongUse("who does it? give your name with --by");
    }
    return by;
  }

  // ---- what is asked for

  private @Nullable Act act(CheckedJob checked) {
    String reason = why == null ? "" : why;
    String text = String.join(" ", words);
    refuseWhatDoesNotFit(text);
    if (asked.answer != null) {
      return answer(checked, asked.answer, reason);
    }
    if (fixed || agreed != null || again != null) {
      throw new WrongUse("--fixed, --agreed and --again answer a finding: name it with --answer");
    }
    if (asked.change != null) {
      return new Act.Change(asked.change, text, reason);
    }
    if (asked.confirm != null) {
      return new Act.Confirm(asked.confirm, reason);
    }
    if (asked.withdraw != null) {
      return new Act.Withdraw(asked.withdraw, reason);
    }
    if (asked.retime != null) {
      if (at == null) {
        throw new WrongUse("when did it happen? give the time with --at");
      }
      return new Act.Retime(asked.retime, time(checked, at), reason);
    }
    if (asked.add) {
      return new Act.Add(text, at == null ? null : time(checked, at), reason);
    }
    if (asked.settle != null) {
      return new Act.Settle(asked.settle, text.isBlank() ? null : text, reason);
    }
    return null;
  }

  /** What would be passed over might have been meant. */
  private void refuseWhatDoesNotFit(String text) {
    boolean toldAtATime = asked.add || asked.retime != null;
    if (at != null && !toldAtATime) {
      throw new WrongUse("--at says when something happened: only --retime and --add take it");
    }
    boolean inWords = asked.add || asked.change != null || asked.settle != null;
    if (!text.isBlank() && !inWords) {
      throw new WrongUse(
          "\"" + text + "\" is to be what? only --change, --add and --settle take WORDS");
    }
  }

  private Act answer(CheckedJob checked, String number, String reason) {
    Finding finding = numbered(checked.outcome().findings()).get(number);
    if (finding == null) {
      throw new WrongUse("there is no finding " + number + "; 'review' lists those that stand");
    }
    int ends = (fixed ? 1 : 0) + (agreed != null ? 1 : 0);
    if (ends > 1 || (ends == 0 && again == null)) {
      throw new WrongUse("what became of it? give one of --fixed, --agreed NAME, --again DAY");
    }
    FindingEnd end =
        fixed ? FindingEnd.FIXED : agreed != null ? FindingEnd.ACCEPTED : FindingEnd.LOOK_AGAIN;
    return new Act.Answer(
        finding.id(),
        null,
        end,
        agreed != null ? agreed : name(),
        reason,
        again == null ? null : day(again));
  }

  /** Findings by their number; what follows from one is numbered behind a point. */
  private static Map<String, Finding> numbered(List<Finding> findings) {
    Map<String, Finding> numbered = new LinkedHashMap<>();
    for (int index = 0; index < findings.size(); index++) {
      Finding finding = findings.get(index);
      String number = Integer.toString(index + 1);
      numbered.put(number, finding);
      for (int below = 0; below < finding.followers().size(); below++) {
        numbered.put(number + "." + (below + 1), finding.followers().get(below));
      }
    }
    return numbered;
  }

  private static LocalDate day(String text) {
    try {
      return LocalDate.parse(text);
    } catch (DateTimeParseException e) {
      throw new WrongUse("--again: expected a day such as 2026-03-02, found " + text);
    }
  }

  private static Instant time(CheckedJob checked, String text) {
    Entry opening = checked.entries().get(0);
    try {
      if (!text.contains("T")) {
        ZoneId zone = opening.zone();
        LocalDate day = LocalDate.ofInstant(opening.happenedAt(), zone);
        return ClockTime.at(LocalTime.parse(text).atDate(day), zone);
      }
      return OffsetDateTime.parse(text).toInstant();
    } catch (ReviewRefused e) {
      throw new WrongUse(String.valueOf(e.getMessage()));
    } catch (DateTimeParseException e) {
      throw new WrongUse(
          "--at: expected a time such as 14:05 or 2026-03-02T14:05:00+01:00, found " + text);
    }
  }

  // ---- what is shown

  private int list(Path file, CheckedJob checked, ReviewDesk desk) {
    JobRecord record = checked.record(console.clock().instant(), null);
    ShopTime time = ShopTime.of(record);
    StatementText text = new StatementText(record.plan(), Trail.of(record.entries()), time);
    List<Doubt> doubts;
    try (LogReader log = SqliteLogs.openForReading(file)) {
      Review review = desk.review(log, checked.job());
      doubts = review.doubts();
    }
    print("DOUBTFUL ENTRIES", doubts.isEmpty() ? "none" : "");
    for (Doubt doubt : doubts) {
      Entry entry = doubt.entry();
      print("  no. " + entry.seq(), time.at(entry.happenedAt(), entry.zone()));
      line("      " + text.of(entry));
      ReviewText.heard(entry).forEach(heard -> line("      " + heard));
      line("      " + ReviewText.why(doubt.why()));
    }
    Map<String, Finding> findings = numbered(checked.outcome().findings());
    print("FINDINGS", findings.isEmpty() ? "none" : "");
    findings.forEach(
        (number, finding) -> {
          line(
              (number.contains(".") ? "      " : "  ")
                  + number
                  + "  "
                  + ReviewText.finding(finding));
          var answer = checked.outcome().answerTo(finding);
          if (answer != null) {
            line("      " + ReviewText.answer(answer));
          }
        });
    var settled = checked.outcome().settled();
    if (!settled.isEmpty()) {
      print("ANSWERED", "");
      settled.forEach(
          each ->
              line(
                  "  no. "
                      + each.entry().seq()
                      + "  "
                      + ReviewText.subject(each)
                      + ": "
                      + ReviewText.answer(each)));
    }
    return doubts.isEmpty() && !checked.needsAction() ? ExitCode.CLEAR : ExitCode.FINDINGS;
  }

  private int look(
      Path file, CheckedJob checked, ReviewDesk desk, Act act, ReviewDesk.Reviewer reviewer) {
    try (LogReader log = SqliteLogs.openForReading(file)) {
      tell(desk.look(log, checked.job(), act, reviewer), checked);
      console.err().println("nothing was noted");
      return ExitCode.CLEAR;
    } catch (ReviewRefused e) {
      throw new WrongUse(String.valueOf(e.getMessage()));
    }
  }

  private void tell(Proposal proposal, CheckedJob checked) {
    List<ReviewText.Line> lines = ReviewText.lines(proposal.change(), checked.plan());
    if (lines.isEmpty()) {
      line("changes neither verdict nor findings nor balances");
    }
    for (ReviewText.Line each : lines) {
      line(each.what());
      line("  before  " + (each.before().isEmpty() ? "nothing" : each.before()));
      line("  after   " + (each.after().isEmpty() ? "nothing" : each.after()));
    }
    if (!proposal.doubt().isEmpty()) {
      console.err().println("can hardly be so: " + proposal.doubt());
    }
  }

  private int tell(ReviewDesk.Done done, CheckedJob checked) {
    Proposal proposal = done.proposal();
    if (proposal != null) {
      tell(proposal, checked);
    }
    if (done.noted().isEmpty()) {
      console.err().println("nothing was noted; give --all-the-same if it is so all the same");
      return ExitCode.WRONG_USE;
    }
    done.noted().forEach(entry -> line("noted as no. " + entry.seq() + ": " + entry.words()));
    if (done.visit()) {
      console
          .err()
          .println("the job was closed and is open for this visit; 'close' it when you are done");
    }
    return ExitCode.CLEAR;
  }

  private void print(String head, String rest) {
    line((head + "  " + rest).stripTrailing());
  }

  private void line(String text) {
    console.out().println(SafeText.visible(text).replace('\n', ' '));
  }
}
