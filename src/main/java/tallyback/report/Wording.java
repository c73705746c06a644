package tallyback.report;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Balance;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.FindingAnswered;
import tallyback.model.Unit;
import tallyback.model.Verdict;
import tallyback.model.Verdict.Answer;
import tallyback.model.Weight;
import tallyback.plan.Plan;
import tallyback.reconcile.JobTimes;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Outcome.FluidPart;
import tallyback.reconcile.Outcome.FluidSum;
import tallyback.reconcile.Outcome.StepStatus;
import tallyback.reconcile.Outcome.TightnessStatus;

/** The words that the page and the console share, so that one thing is called the same in both. */
public final class Wording {

  /** Who decides; printed wherever a verdict is. */
  static final String DEFERRAL =
      "This is what follows from what was said. The maker's manual, local rules and licensed practice decide.";

  /**
   * A number and what it counts, or a short word and its number, are never parted by a line end.
   */
  private static final Pattern BELONGS_TOGETHER =
      Pattern.compile(
          "(?<=\\d) (?=(?:"
              + Stream.of(Unit.values())
                  .map(Unit::symbol)
                  .filter(symbol -> !symbol.isEmpty())
                  .map(Pattern::quote)
                  .collect(Collectors.joining("|"))
              + ")(?![\\p{L}\\d]))|(?<=(?:^|\\W)(?:no\\.|p\\.|\u00b1|k =|k)) (?=[\\d=])");

  /** So many things not said are named beside a stage; the others only counted. */
  private static final int NAMED_UNSAID = 3;

  private static final String UNBROKEN_SPACE = "\u00a0";

  private Wording() {}

  /** The text with unbreakable spaces where a line must not end. */
  public static String together(String text) {
    return BELONGS_TOGETHER.matcher(text).replaceAll(UNBROKEN_SPACE);
  }

  static String weight(Weight weight) {
    return switch (weight) {
      case STOP -> "STOP";
      case CHECK -> "CHECK";
      case NOTE -> "NOTE";
    };
  }

  static String question(Stage stage) {
    return switch (stage) {
      case START_FOR_TEST -> "May it be started for test?";
      case WORK -> "May it go to work?";
      case HAND_OVER -> "May it be handed over?";
    };
  }

  static Answer answer(Verdict verdict, Stage stage) {
    return switch (stage) {
      case START_FOR_TEST -> verdict.startForTest();
      case WORK -> verdict.work();
      case HAND_OVER -> verdict.handOver();
    };
  }

  static String answer(Answer answer) {
    return switch (answer) {
      case CLEAR -> "NOTHING AGAINST IT";
      case STOP -> "NO";
      case OPEN -> "CAN'T SAY";
    };
  }

  /**
   * Why the answer for one stage is what it is: the findings that stand against it and what nobody
   * said that it needs. A clear one always says what it doesn't cover.
   */
  static String reason(Outcome outcome, Stage stage) {
    List<String> against = outcome.against(stage).stream().map(String::valueOf).toList();
    return switch (answer(outcome.verdict(), stage)) {
      case STOP -> (standsAgainst(against) + " " + unsaid(outcome, stage)).strip();
      case CLEAR ->
          "Nothing against it in what you told me"
              + answered(outcome.settled().size())
              + "; not said: "
              + others(outcome.unchecked().size())
              + ".";
      case OPEN -> ("Not enough was said to judge. " + unsaid(outcome, stage)).strip();
    };
  }

  private static String answered(int findings) {
    return switch (findings) {
      case 0 -> "";
      case 1 -> ", after 1 finding was answered";
      default -> ", after " + findings + " findings were answered";
    };
  }

  /** What an answered finding is about. */
  static String answeredSubject(Outcome.Answered answered) {
    Finding finding = answered.finding();
    return finding == null
        ? "nothing that is found any more"
        : weight(finding.weight()) + " " + finding.subject();
  }

  /** An answer and whether it counts, in one line. */
  static String answer(Outcome.Answered answered) {
    String words = answer(answered.answer());
    Finding finding = answered.finding();
    if (answered.holds() || finding == null) {
      return words;
    }
    boolean asBefore = finding.says().equals(answered.answer().read());
    return "no longer holds, as "
        + (asBefore ? "more was told of it since" : "it reads otherwise now")
        + ": "
        + words;
  }

  /** The answer to a finding, in one line. */
  static String answer(FindingAnswered answer) {
    String end =
        switch (answer.end()) {
          case FIXED -> "put right by ";
          case ACCEPTED -> "left as it is, agreed to by ";
          case LOOK_AGAIN -> "to be looked at again by ";
        };
    String day = answer.again() == null ? "" : ", again on " + answer.again();
    return end + answer.by() + day + ": " + answer.why() + " (it read: " + answer.read() + ")";
  }

  /** What nobody said that the stage needs, without repeating what an earlier one needs already. */
  private static String unsaid(Outcome outcome, Stage stage) {
    List<String> own = new ArrayList<>(outcome.unsaidFor(stage));
    int all = own.size();
    for (Stage earlier : Stage.values()) {
      if (earlier.compareTo(stage) < 0) {
        own.removeAll(outcome.unsaidFor(earlier));
      }
    }
    if (own.isEmpty()) {
      return all == 0 ? "" : "What was not said above is missing here too.";
    }
    return (own.size() == all ? "Not said: " : "Not said besides: ") + named(own);
  }

  /** The first few by name. */
  private static String named(List<String> unsaid) {
    List<String> first = unsaid.subList(0, Math.min(NAMED_UNSAID, unsaid.size()));
    int more = unsaid.size() - first.size();
    return String.join("; ", first) + (more == 0 ? "." : "; and " + more + " more, listed below.");
  }

  private static String standsAgainst(List<String> against) {
    return switch (against.size()) {
      case 0 -> "Something stands against it that is not in the list of findings.";
      case 1 -> "Finding " + against.get(0) + " stands against it.";
      default -> "Findings " + listed(against) + " stand against it.";
    };
  }

  /** {@code 1 to 4 and 7}. */
  private static String listed(List<String> numbers) {
    List<String> runs = new ArrayList<>();
    int from = 0;
    while (from < numbers.size()) {
      int to = from;
      while (to + 1 < numbers.size() && number(numbers, to + 1) == number(numbers, to) + 1) {
        to++;
      }
      if (to - from > 1) {
        runs.add(numbers.get(from) + " to " + numbers.get(to));
      } else {
        runs.addAll(numbers.subList(from, to + 1));
      }
      from = to + 1;
    }
    String last = runs.remove(runs.size() - 1);
    return runs.isEmpty() ? last : String.join(", ", runs) + " and " + last;
  }

  private static int number(List<String> numbers, int index) {
    return Integer.parseInt(numbers.get(index));
  }

  private static String others(int unsaid) {
    return switch (unsaid) {
      case 0 -> "whatever the plan does not ask for";
      case 1 -> "1 thing that this doesn't hang on, listed below";
      default -> unsaid + " things that this doesn't hang on, listed below";
    };
  }

  static String part(FluidPart part) {
    return switch (part) {
      case DRAINED -> "drained";
      case LEFT_IN_PART -> "left in the part taken off";
      case BLED_OUT -> "pushed out while bleeding";
      case SPILLED -> "spilled";
      case DRY_PARTS -> "new parts that went in dry";
      case FILLED -> "filled";
      case PUT_BACK -> "poured back";
    };
  }

  /** A time, or nothing where none is known. */
  static String time(@Nullable Duration time) {
    return time == null ? "" : ShopTime.took(time);
  }

  /** What earlier jobs took, such as {@code last time 22 min}. */
  static String past(JobTimes.@Nullable Past past) {
    if (past == null) {
      return "";
    }
    return past.median() == null
        ? "last time " + time(past.last())
        : "median of " + past.jobs() + " jobs: " + time(past.median());
  }

  /** The whole job in a few words. */
  static String worked(JobTimes times) {
    return time(times.worked()) + " worked, " + time(times.paused()) + " paused as told";
  }

  /** The job against its plan and earlier ones. */
  static String compared(JobTimes times) {
    List<String> parts = new ArrayList<>();
    if (times.planned() != null) {
      parts.add(
          "steps told whole: "
              + time(times.againstPlan())
              + ", by the plan "
              + time(times.planned()));
    }
    parts.add(times.past() == null ? "no earlier job to compare" : past(times.past()));
    return String.join("; ", parts);
  }

  static String step(StepStatus status) {
    return switch (status) {
      case DONE -> "done";
      case STARTED -> "begun, not said to be finished";
      case SKIPPED -> "left out on purpose";
      case UNSAID -> "never mentioned";
    };
  }

  static String tightness(TightnessStatus status) {
    return switch (status) {
      case RIGHT -> "in range";
      case WRONG -> "WRONG";
      case PARTLY -> "NOT FINISHED";
      case UNSAID -> "NOT SAID";
    };
  }

  /** {@code 4 on the machine, 2 in the tray}. */
  static String balance(Balance balance) {
    return balance.lines().isEmpty()
        ? "nothing said"
        : balance.lines().stream().map(Wording::line).collect(Collectors.joining(", "));
  }

  private static String line(Balance.Line line) {
    Integer count = line.count();
    Amount amount = line.amount();
    String much =
        count != null
            ? count.toString()
            : amount != null ? amount.toString() : "an amount not said";
    boolean less = much.startsWith("-");
    String size = less ? much.substring(1) : much;
    return switch (line.account()) {
      case STOCK -> size + (less ? " from new stock" : " in new stock");
      case CAN -> size + (less ? " from the can" : " in the can");
      case SYSTEM ->
          line.opening()
              ? size + (less ? " less" : " more") + " in the system than before, which is not known"
              : minus(much) + " in the system";
      default -> minus(much) + " " + place(line.account(), count != null) + opening(line);
    };
  }

  private static String place(Account account, boolean items) {
    return switch (account) {
      case MACHINE -> "on the machine";
      case TRAY -> "in the tray";
      case SCRAP -> "thrown away";
      case LOST -> items ? "lost" : "spilled";
      case PAN -> "caught";
      case OLD_PART -> "left in the old part";
      case WASTE -> "to waste";
      case STOCK, CAN, SYSTEM -> account.label();
    };
  }

  private static String opening(Balance.Line line) {
    return line.opening() ? " (only the change: not in the plan)" : "";
  }

  /**
   * True when something of it is left over or lost, or is a temporary thing that is still in. Old
   * parts in the tray for which new ones went in are where they belong.
   */
  static boolean outOfPlace(Balance balance, Plan plan) {
    int lost = count(balance, Account.LOST);
    if (isTemporary(balance, plan)) {
      return lost != 0 || count(balance, Account.MACHINE) != 0;
    }
    int renewed = Math.max(0, -count(balance, Account.STOCK));
    int tray = count(balance, Account.TRAY);
    return lost != 0 || tray < 0 || tray > renewed;
  }

  private static int count(Balance balance, Account account) {
    return balance.lines().stream()
        .filter(line -> line.account() == account)
        .map(Balance.Line::count)
        .filter(java.util.Objects::nonNull)
        .mapToInt(Integer::intValue)
        .sum();
  }

  /** What it is, and that it must come out again when it is only temporary. */
  static String label(Balance balance, Plan plan) {
    return balance.label() + (isTemporary(balance, plan) ? " (must come out again)" : "");
  }

  private static boolean isTemporary(Balance balance, Plan plan) {
    return plan.item(balance.subject()).map(Plan.Item::temporary).orElse(false);
  }

  /** With a true minus sign, so that a short hyphen is not overlooked. */
  static String minus(String number) {
    return number.startsWith("-") ? "\u2212" + number.substring(1) : number;
  }

  /** {@code short 0.80 L ± 0.31 L}, or {@code over} when more went in than came out. */
  static String difference(FluidSum sum) {
    String size = sum.shortage().toString();
    String word =
        switch (sum.shortage().value().signum()) {
          case 1 -> "short " + size;
          case -1 -> "over " + size.substring(1);
          default -> "even";
        };
    return word + " \u00b1 " + sum.uncertainty();
  }

  /** Which job, when, how much was said and by whom, in one line. */
  static String jobLine(JobRecord job) {
    JobRecord.Heading heading = job.heading();
    Instant closed = heading.closedAt();
    return "job "
        + heading.job()
        + " \u00b7 opened "
        + ShopTime.full(heading.openedAt(), heading.zone())
        + (closed == null ? ", still open" : ", closed " + ShopTime.full(closed, heading.zone()))
        + " \u00b7 "
        + job.entries().size()
        + (job.entries().size() == 1 ? " entry" : " entries")
        + " \u00b7 told by "
        + people(job);
  }

  /** Everybody who said something. */
  public static String people(JobRecord job) {
    String people =
        job.entries().stream()
            .filter(entry -> entry.source() != Source.TOOL && !putRight(entry.statement()))
            .map(entry -> job.plan().label(entry.actor()))
            .distinct()
            .collect(Collectors.joining(", "));
    return people.isEmpty() ? "nobody yet" : people;
  }

  /** Whoever only puts right what was noted did none of the work. */
  private static boolean putRight(Statement said) {
    return said instanceof Statement.AddedLater
        || said instanceof FindingAnswered
        || (said instanceof Statement.Corrected corrected && corrected.why() != null)
        || (said instanceof Statement.Retimed retimed && retimed.why() != null)
        || (said instanceof Statement.Undone undone && undone.why() != null);
  }
}
