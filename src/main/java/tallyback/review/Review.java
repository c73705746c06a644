package tallyback.review;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.books.Fate;
import tallyback.books.Remark;
import tallyback.books.Standing;
import tallyback.dialogue.ReadAlone;
import tallyback.dialogue.ReadAlone.Meant;
import tallyback.dialogue.ReadAlone.TurnedDown;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.AddedLater;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.FindingAnswered;
import tallyback.model.Statement.FindingEnd;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.Undone;
import tallyback.model.Weight;
import tallyback.phrase.EntryGrammar;
import tallyback.plan.Plan;
import tallyback.reconcile.EarlierFill;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Reconciler;
import tallyback.review.Doubt.Why;
import tallyback.review.Proposal.Piece;

/** A job under review, as it stood at one moment. It notes nothing. Used by one thread. */
public final class Review {

  private static final int LONGEST_NAME = 100;
  private static final int LONGEST_REASON = 400;

  private final Plan plan;
  private final Supplier<EntryGrammar> grammar;
  private final List<Entry> entries;
  private final List<EarlierFill> past;
  private final Outcome outcome;
  private final Map<String, Fate> fates;

  /**
   * Looks at a job.
   *
   * @param plan the plan frozen in it
   * @param grammar how words about it are understood; made when words are first read
   * @param entries all its entries, by sequence number
   * @param past what is kept of earlier jobs on the same machine
   */
  public Review(
      Plan plan, Supplier<EntryGrammar> grammar, List<Entry> entries, List<EarlierFill> past) {
    this.plan = plan;
    this.grammar = grammar;
    this.entries = List.copyOf(entries);
    this.past = List.copyOf(past);
    this.outcome = Reconciler.reconcile(plan, entries, past);
    this.fates = Fate.of(entries);
  }

  /** The plan frozen in it. */
  public Plan plan() {
    return plan;
  }

  /** All its entries, by sequence number. */
  public List<Entry> entries() {
    return entries;
  }

  /** What the reconciler makes of it. */
  public Outcome outcome() {
    return outcome;
  }

  /** What is doubtful, the gravest first, each by when it happened. */
  public List<Doubt> doubts() {
    Map<String, Why> doubts = new HashMap<>();
    Books books = Books.of(plan, entries);
    for (Remark remark : books.remarks()) {
      doubts.put(
          remark.entry().id(), remark.why().aboutAnEdit() ? Why.CHANGES_NOTHING : Why.UNUSABLE);
    }
    Set<String> missed = stillMissed();
    for (Standing standing : books.standing()) {
      Entry entry = standing.entry();
      if (entry.statement() instanceof NotUnderstood) {
        if (missed.contains(entry.id())) {
          doubts.put(entry.id(), Why.NOT_UNDERSTOOD);
        }
      } else if (!entry.confirmed()) {
        Fate fate = fates.get(entry.id());
        doubts.put(
            entry.id(),
            fate != null && fate.doubtedBy() != null ? Why.PUT_IN_DOUBT : Why.UNCONFIRMED);
      }
    }
    return entries.stream()
        .filter(entry -> doubts.containsKey(entry.id()))
        .map(entry -> new Doubt(entry, doubts.getOrDefault(entry.id(), Why.UNUSABLE)))
        .sorted(
            Comparator.comparing(Doubt::why)
                .thenComparing(doubt -> doubt.entry().happenedAt())
                .thenComparing(doubt -> doubt.entry().seq()))
        .toList();
  }

  /** Ids of the entries of the finding by which the reconciler tells what was not understood. */
  private Set<String> stillMissed() {
    Set<String> missed = new HashSet<>();
    outcome.findings().forEach(finding -> gatherMissed(finding, missed));
    outcome.settled().stream()
        .map(Outcome.Answered::finding)
        .filter(finding -> finding != null)
        .forEach(finding -> gatherMissed(finding, missed));
    return missed;
  }

  private static void gatherMissed(Finding finding, Set<String> missed) {
    if (finding.kind().equals("not-understood")) {
      missed.addAll(finding.entries());
    }
    finding.followers().forEach(each -> gatherMissed(each, missed));
  }

  /**
   * What an act would note and change.
   *
   * @param act what is asked for
   * @param reviewer who asks
   * @param now when
   * @throws ReviewRefused if it can't be done
   */
  public Proposal propose(Act act, String reviewer, Instant now) {
    line("your name", reviewer, LONGEST_NAME);
    boolean reasonless = act instanceof Act.Add add && add.at() == null;
    if (!reasonless) {
      line("the reason", act.why(), LONGEST_REASON);
    }
    if (act instanceof Act.Answer answer) {
      return proposal(answered(answer, now), "", reviewer, now);
    }
    if (act instanceof Act.Change change) {
      return changed(change, reviewer, now);
    }
    if (act instanceof Act.Confirm confirm) {
      return confirmed(confirm, reviewer, now);
    }
    if (act instanceof Act.Retime retime) {
      Entry entry = standing(retime.seq());
      requirePast(retime.to(), now);
      return proposal(
          new Piece(
              "at another time: " + retime.why(),
              now,
              new Retimed(entry.id(), retime.to(), retime.why())),
          reading().doubtOfTime(entry, retime.to(), now),
          reviewer,
          now);
    }
    if (act instanceof Act.Withdraw withdraw) {
      Entry entry = noted(withdraw.seq());
      return proposal(
          new Piece("withdrawn: " + withdraw.why(), now, new Undone(entry.id(), withdraw.why())),
          "",
          reviewer,
          now);
    }
    if (act instanceof Act.Add add) {
      return added(add, reviewer, now);
    }
    return settled((Act.Settle) act, reviewer, now);
  }

  /**
   * What an entry that was noted has changed.
   *
   * @param seq its number
   * @throws ReviewRefused if there is none
   */
  public Change changedBy(long seq) {
    if (seq < 2 || seq > entries.size()) {
      throw new ReviewRefused("there is no entry no. " + seq + " behind the opening of the job");
    }
    List<Entry> before = entries.stream().filter(entry -> entry.seq() < seq).toList();
    List<Entry> after = entries.stream().filter(entry -> entry.seq() <= seq).toList();
    return Change.between(
        Reconciler.reconcile(plan, before, past), Reconciler.reconcile(plan, after, past));
  }

  // ---- findings

  private Piece answered(Act.Answer answer, Instant now) {
    line("by whom", answer.by(), LONGEST_NAME);
    Finding finding = finding(answer.finding());
    if (answer.read() != null && !answer.read().equals(finding.says())) {
      throw new ReviewRefused(
          "the finding reads otherwise by now: " + finding.says() + "; read it, and answer anew");
    }
    boolean stop = finding.weight() == Weight.STOP;
    if (answer.end() == FindingEnd.ACCEPTED && stop) {
      throw new ReviewRefused(
          "nobody can agree to a stop: put it right on the machine and say what was done, or correct"
              + " what was noted");
    }
    if (answer.end() == FindingEnd.LOOK_AGAIN && answer.again() == null) {
      throw new ReviewRefused("on which day is it to be looked at again? Give it, as 2026-03-02");
    }
    LocalDate today = LocalDate.ofInstant(now, zone());
    if (answer.again() != null && answer.again().isBefore(today)) {
      throw new ReviewRefused(answer.again() + " is over; give a day to come");
    }
    return new Piece(
        word(answer.end()) + ": " + answer.why(),
        now,
        new FindingAnswered(
            finding.id(),
            finding.says(),
            answer.end(),
            answer.by().strip(),
            answer.why().strip(),
            answer.again()));
  }

  private static String word(FindingEnd end) {
    return switch (end) {
      case FIXED -> "put right";
      case ACCEPTED -> "agreed to";
      case LOOK_AGAIN -> "look again";
    };
  }

  private Finding finding(String id) {
    List<Finding> all = new ArrayList<>(outcome.findings());
    outcome.findings().forEach(each -> all.addAll(each.followers()));
    outcome.settled().stream()
        .map(Outcome.Answered::finding)
        .filter(finding -> finding != null)
        .forEach(all::add);
    return all.stream()
        .filter(each -> each.id().equals(id))
        .findFirst()
        .orElseThrow(
            () ->
                new ReviewRefused(
                    "there is no such finding any more; look at the job as it is now"));
  }

  // ---- entries

  private Proposal changed(Act.Change change, String reviewer, Instant now) {
    Entry entry = standing(change.seq());
    if (entry.statement() instanceof NotUnderstood) {
      throw new ReviewRefused(
          "no. " + change.seq() + " was not understood; say what it was ('settle')");
    }
    Meant meant = meant(change.words(), entry.happenedAt(), now, entry);
    if (meant.statement().equals(entry.statement()) && entry.confirmed()) {
      throw new ReviewRefused("no. " + change.seq() + " says so already");
    }
    return proposal(
        new Piece(change.words(), now, new Corrected(entry.id(), meant.statement(), change.why())),
        meant.doubt(),
        reviewer,
        now);
  }

  private Proposal confirmed(Act.Confirm confirm, String reviewer, Instant now) {
    Entry entry = standing(confirm.seq());
    if (entry.statement() instanceof NotUnderstood) {
      throw new ReviewRefused(
          "no. " + confirm.seq() + " was not understood; say what it was ('settle')");
    }
    if (entry.confirmed()) {
      throw new ReviewRefused("no. " + confirm.seq() + " is in no doubt");
    }
    return proposal(
        new Piece(
            "right as it stands: " + confirm.why(),
            now,
            new Corrected(entry.id(), entry.statement(), confirm.why())),
        "",
        reviewer,
        now);
  }

  private static void requirePast(Instant at, Instant now) {
    if (at.isAfter(now)) {
      throw new ReviewRefused("that time is still to come; give the time at which it was done");
    }
  }

  private Proposal added(Act.Add add, String reviewer, Instant now) {
    Instant at = add.at();
    if (at == null) {
      Meant meant = meant(add.words(), now, now, null);
      return proposal(new Piece(add.words(), now, meant.statement()), meant.doubt(), reviewer, now);
    }
    requirePast(at, now);
    Meant meant = meant(add.words(), at, now, null);
    return proposal(
        new Piece(add.words(), at, new AddedLater(meant.statement(), add.why())),
        meant.doubt(),
        reviewer,
        now);
  }

  private Proposal settled(Act.Settle settle, String reviewer, Instant now) {
    Entry entry = standing(settle.seq());
    if (!(entry.statement() instanceof NotUnderstood) || !stillMissed().contains(entry.id())) {
      throw new ReviewRefused("no. " + settle.seq() + " is nothing that waits to be understood");
    }
    String words = settle.words();
    if (words == null || words.isBlank()) {
      return proposal(
          new Piece("not wanted: " + settle.why(), now, new NotUnderstoodSettled(entry.id(), null)),
          "",
          reviewer,
          now);
    }
    Meant meant = meant(words, entry.happenedAt(), now, null);
    return proposal(
        List.of(
            new Piece(words, entry.happenedAt(), new AddedLater(meant.statement(), settle.why())),
            new Piece(
                "understood: " + settle.why(),
                now,
                new NotUnderstoodSettled(entry.id(), Proposal.PIECE_BEFORE))),
        meant.doubt(),
        reviewer,
        now);
  }

  /** The entry of a number, as it holds now. */
  private Entry standing(long seq) {
    Entry entry = noted(seq);
    Statement said = entry.statement();
    if (said instanceof Undone || said instanceof Corrected || said instanceof Retimed) {
      throw new ReviewRefused(
          "no. "
              + seq
              + " changes another entry; change that one by its own number, or withdraw this");
    }
    return Books.of(plan, entries).standing().stream()
        .map(Standing::entry)
        .filter(each -> each.id().equals(entry.id()))
        .findFirst()
        .orElse(entry);
  }

  /** The entry of a number, unless it was withdrawn. */
  private Entry noted(long seq) {
    Entry entry =
        entries.stream()
            .filter(each -> each.seq() == seq)
            .findFirst()
            .orElseThrow(() -> new ReviewRefused("there is no entry no. " + seq));
    Statement said = entry.statement();
    if (said instanceof Statement.JobOpened
        || said instanceof Statement.JobClosed
        || said instanceof Statement.VisitBegun) {
      throw new ReviewRefused("no. " + seq + " is the opening or closing of the job, and stays");
    }
    Fate fate = fates.get(entry.id());
    if (fate != null && fate.withdrawnBy() != null) {
      throw new ReviewRefused(
          "no. "
              + seq
              + " was withdrawn by no. "
              + fate.withdrawnBy().seq()
              + "; withdraw that to bring it back");
    }
    return entry;
  }

  // ---- words

  private Meant meant(String words, Instant happenedAt, Instant now, @Nullable Entry instead) {
    line("what it is to say", words, LONGEST_REASON);
    ReadAlone.Read read = reading().read(words, happenedAt, now, instead);
    if (read instanceof TurnedDown turnedDown) {
      throw new ReviewRefused("\"" + words.strip() + "\": " + turnedDown.why());
    }
    return (Meant) read;
  }

  private ReadAlone reading() {
    return new ReadAlone(plan, grammar.get(), zone(), entries);
  }

  private ZoneId zone() {
    return entries.get(0).zone();
  }

  private static void line(String what, String text, int longest) {
    if (text.isBlank()) {
      throw new ReviewRefused(what + " is missing; write it");
    }
    if (text.length() > longest) {
      throw new ReviewRefused(what + " is longer than " + longest + " letters; write fewer");
    }
    if (text.codePoints().anyMatch(Character::isISOControl)) {
      throw new ReviewRefused(what + ": write one line, without tabs and line ends");
    }
  }

  // ---- what it would change

  private Proposal proposal(Piece piece, String doubt, String reviewer, Instant now) {
    return proposal(List.of(piece), doubt, reviewer, now);
  }

  private Proposal proposal(List<Piece> pieces, String doubt, String reviewer, Instant now) {
    List<Entry> after = new ArrayList<>(entries);
    String before = "";
    for (Piece piece : pieces) {
      Entry entry = wouldBe(piece, before, after.size(), reviewer, now);
      after.add(entry);
      before = entry.id();
    }
    return new Proposal(
        pieces, doubt, Change.between(outcome, Reconciler.reconcile(plan, after, past)));
  }

  private Entry wouldBe(Piece piece, String before, int place, String reviewer, Instant now) {
    return new Entry(
        "@would-be-" + place,
        entries.get(0).job(),
        entries.get(entries.size() - 1).seq() + 1 + (place - entries.size()),
        piece.happenedAt(),
        now,
        zone(),
        reviewer,
        "review",
        Source.TYPED,
        Certainty.CONFIRMED,
        piece.words(),
        null,
        piece.after(before));
  }
}
