package tallyback.reconcile;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import tallyback.books.ItemAccount;
import tallyback.books.Posting;
import tallyback.books.Standing;
import tallyback.model.Account;
import tallyback.model.Amount;
import tallyback.model.Finding.Stage;
import tallyback.model.Rational;
import tallyback.model.Statement;
import tallyback.model.Statement.Aligned;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.Thing;
import tallyback.model.Unit;
import tallyback.model.Weight;
import tallyback.plan.Plan.Item;
import tallyback.trade.ScrewThread;
import tallyback.trade.WidthAcrossFlats;

/** Where everything is that came off, went in, or should be new. */
final class ItemRules implements Rule {

  private static final String[] STEPS = {"step-not-done", "step-not-finished", "step-skipped"};

  private static final Kind LEFT_IN_TRAY =
      Kind.stop("left-in-tray", Kind.ALL)
          .following(
              "lengths-swapped",
              "step-not-done",
              "step-not-finished",
              "step-skipped",
              "amount-unusable",
              "more-off-than-plan")
          .whileUnfinished();
  private static final Kind NOT_CONNECTED =
      Kind.stop("not-connected", Kind.ALL)
          .following("step-not-done", "step-not-finished", "step-skipped", "amount-unusable")
          .whileUnfinished();
  private static final Kind MISSING =
      Kind.stop("missing", Kind.ALL).following("dropped-in-machine").whileUnfinished();
  private static final Kind DROPPED = Kind.stop("dropped-in-machine", Kind.ALL);
  private static final Kind MORE_ON =
      Kind.check("more-on-than-off", Kind.AFTER_TEST).following("lengths-swapped");
  private static final Kind LENGTHS_SWAPPED = Kind.check("lengths-swapped", Kind.ALL);
  private static final Kind MORE_OFF = Kind.check("more-off-than-plan", Kind.AFTER_TEST);
  private static final Kind WRONG_HEAD = Kind.check("wrong-head-size", Kind.AFTER_TEST);
  private static final Kind HEAD_UNUSUAL = Kind.note("head-unusual");
  private static final Kind OLD_PUT_BACK = Kind.stop("old-put-back", Kind.ALL);
  private static final Kind RENEWAL_UNSAID =
      Kind.check("renewal-unsaid", Kind.ALL)
          .following(
              "left-in-tray",
              "missing",
              "not-connected",
              "said-not-counted",
              "step-not-done",
              "step-not-finished",
              "step-skipped")
          .whileUnfinished();
  private static final Kind NOT_CARRIED_OVER =
      Kind.check("not-carried-over", Kind.ALL)
          .following(
              "left-in-tray",
              "missing",
              "not-connected",
              "step-not-done",
              "step-not-finished",
              "step-skipped")
          .whileUnfinished();
  private static final Kind TEMPORARY_IN =
      Kind.stop("temporary-still-in", Kind.ALL).whileUnfinished();
  private static final Kind ALIGNMENT_OUTSIDE = Kind.stop("alignment-outside", Kind.ALL);
  private static final Kind ALIGNMENT_UNSAID =
      Kind.check("alignment-unsaid", Kind.ALL)
          .following(
              "left-in-tray",
              "missing",
              "not-connected",
              "unit-unsaid",
              "step-not-done",
              "step-not-finished",
              "step-skipped")
          .whileUnfinished();
  private static final Kind NOT_COUNTED =
      Kind.check("said-not-counted", Kind.AFTER_TEST).following(STEPS).whileUnfinished();
  private static final Kind NOT_IN_PLAN = Kind.check("not-in-plan", Kind.HAND_OVER);

  /** Small things whose lack spoils the work and not the test run. Common practice, no source. */
  private static final Set<Thing> SMALL = EnumSet.of(Thing.CLIP, Thing.SCREW, Thing.WASHER);

  @Override
  public List<Kind> kinds() {
    return List.of(
        LEFT_IN_TRAY,
        NOT_CONNECTED,
        MISSING,
        DROPPED,
        MORE_ON,
        MORE_OFF,
        LENGTHS_SWAPPED,
        WRONG_HEAD,
        HEAD_UNUSUAL,
        OLD_PUT_BACK,
        RENEWAL_UNSAID,
        NOT_CARRIED_OVER,
        TEMPORARY_IN,
        ALIGNMENT_OUTSIDE,
        ALIGNMENT_UNSAID,
        NOT_COUNTED,
        NOT_IN_PLAN);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    for (Item item : job.plan().items()) {
      ItemAccount account = job.account(item);
      if (item.temporary()) {
        temporary(item, account, found);
      } else {
        whereabouts(job, item, account, found);
        headSize(job, item, found);
        condition(job, item, account, found);
        alignment(job, item, found);
      }
      dropped(account, job.stepsFitting(item), found);
    }
    lengthsSwapped(job, found);
    notInPlan(job, found);
  }

  private static void temporary(Item item, ItemAccount account, Drafts found) {
    if (account.count(Account.MACHINE) > 0) {
      found
          .add(TEMPORARY_IN, item.id(), item.label())
          .with("in", account.count(Account.MACHINE))
          .with("uncounted", account.uncounted().isEmpty() ? "" : FindingText.OUT_WITHOUT_NUMBER)
          .seenIn(movesOf(account));
    }
  }

  private static void whereabouts(JobView job, Item item, ItemAccount account, Drafts found) {
    int machine = account.count(Account.MACHINE);
    int inTray = Math.min(account.lacking(), Math.max(0, account.count(Account.TRAY)));
    int gone = account.lacking() - inTray;
    int lowest = lowestOnMachine(item, account);
    if (lowest < 0) {
      moved(MORE_OFF, job, item, account, found).with("off", item.count() - lowest);
    }
    if (machine > item.count()) {
      moved(MORE_ON, job, item, account, found).with("more", machine - item.count());
    }
    if (inTray > 0 && saidBackOn(account)) {
      moved(NOT_COUNTED, job, item, account, found)
          .with("tray", inTray)
          .with("words", lastUncounted(account).entry().words());
    } else if (inTray > 0) {
      boolean connection = item.thing() == Thing.CONNECTOR || item.thing() == Thing.HOSE;
      weigh(moved(connection ? NOT_CONNECTED : LEFT_IN_TRAY, job, item, account, found), item)
          .with("tray", inTray);
    }
    if (gone > 0) {
      weigh(moved(MISSING, job, item, account, found), item)
          .with("gone", gone)
          .with("lost", account.count(Account.LOST))
          .with("scrap", account.count(Account.SCRAP));
    }
  }

  /** As many too many in one group as are left over of the same thread in another length. */
  private static void lengthsSwapped(JobView job, Drafts found) {
    List<Item> overfull = new ArrayList<>();
    for (Item item : job.plan().items()) {
      if (item.length() != null && job.account(item).count(Account.MACHINE) > item.count()) {
        overfull.add(item);
      }
    }
    for (Item many : overfull) {
      for (Item few : job.plan().items()) {
        if (fitsTheSameThread(many, few) && job.account(few).lacking() > 0) {
          lengthsSwapped(job, many, few, found);
        }
      }
    }
  }

  private static void lengthsSwapped(JobView job, Item many, Item few, Drafts found) {
    ItemAccount tooMany = job.account(many);
    ItemAccount tooFew = job.account(few);
    int more = tooMany.count(Account.MACHINE) - many.count();
    int left = Math.min(tooFew.lacking(), Math.max(0, tooFew.count(Account.TRAY)));
    if (left > 0) {
      found
          .add(LENGTHS_SWAPPED, many.id() + " " + few.id(), many.label() + ", " + few.label())
          .about(List.of(many.id(), few.id()))
          .with("many", many.label())
          .with("few", few.label())
          .with("manyLength", String.valueOf(many.length()))
          .with("fewLength", String.valueOf(few.length()))
          .with("more", more)
          .with("left", left)
          .seenIn(movesOf(tooMany))
          .seenIn(movesOf(tooFew));
    }
  }

  private static boolean fitsTheSameThread(Item one, Item other) {
    Amount length = one.length();
    Amount otherLength = other.length();
    if (length == null
        || otherLength == null
        || length.base().compareTo(otherLength.base()) == 0
        || one.thing() != other.thing()
        || other.temporary()) {
      return false;
    }
    if (one.thread() != null && other.thread() != null) {
      return one.thread().equals(other.thread());
    }
    return one.head() != null
        && other.head() != null
        && one.head().base().compareTo(other.head().base()) == 0;
  }

  /** How few were ever left on the machine by what was said. */
  private static int lowestOnMachine(Item item, ItemAccount account) {
    Rational left = Rational.of(item.count(), 1);
    Rational lowest = left;
    for (Posting posting : account.postings()) {
      if (posting.from() == Account.MACHINE) {
        left = left.minus(posting.quantity());
      } else if (posting.to() == Account.MACHINE) {
        left = left.plus(posting.quantity());
      }
      lowest = left.compareTo(lowest) < 0 ? left : lowest;
    }
    return lowest.toBigDecimal().intValueExact();
  }

  /**
   * True when something was said to be on again without a number, so that the tray may well be
   * empty.
   */
  private static boolean saidBackOn(ItemAccount account) {
    return account.uncounted().stream().anyMatch(ItemRules::putsOn);
  }

  private static boolean putsOn(Standing said) {
    if (said.statement() instanceof ItemsMoved moved) {
      return moved.move() == ItemMove.ON || moved.move() == ItemMove.NEW_ON;
    }
    return said.statement() instanceof PartFitted;
  }

  private static Standing lastUncounted(ItemAccount account) {
    List<Standing> back = account.uncounted().stream().filter(ItemRules::putsOn).toList();
    return back.get(back.size() - 1);
  }

  private static Draft moved(Kind kind, JobView job, Item item, ItemAccount account, Drafts found) {
    return found
        .add(kind, item.id(), item.label())
        .restingOn(job.stepsFitting(item))
        .with("count", item.count())
        .with("on", account.count(Account.MACHINE))
        .seenIn(movesOf(account));
  }

  private static List<Standing> movesOf(ItemAccount account) {
    List<Standing> moves = new ArrayList<>(account.uncounted());
    account.postings().stream().map(Posting::said).forEach(moves::add);
    return moves;
  }

  /** Small things without a torque spoil the work, not the test run. */
  private static Draft weigh(Draft draft, Item item) {
    return SMALL.contains(item.thing()) && item.torque() == null
        ? draft.weighs(Weight.CHECK, List.of(Stage.WORK, Stage.HAND_OVER))
        : draft;
  }

  private static void dropped(ItemAccount account, List<String> restsOn, Drafts found) {
    int inMachine = account.lostInMachine();
    int somewhere = account.lostSomewhere();
    if (inMachine + somewhere > 0) {
      found
          .add(DROPPED, account.subject(), account.label())
          .restingOn(restsOn)
          .with("number", inMachine + somewhere)
          .with("where", inMachine > 0 ? FindingText.INTO_MACHINE : FindingText.NOBODY_SAID_WHERE)
          .seenIn(droppedIn(account));
    }
  }

  private static List<Standing> droppedIn(ItemAccount account) {
    return account.postings().stream()
        .map(Posting::said)
        .filter(
            said ->
                said.statement() instanceof ItemsMoved moved && moved.move() == ItemMove.DROPPED)
        .toList();
  }

  private static void headSize(JobView job, Item item, Drafts found) {
    Amount planned = item.head();
    if (planned == null) {
      usualHead(job, item, found);
      return;
    }
    for (At<Statement> event : job.eventsOf(item.id())) {
      if (event.statement() instanceof ItemsMoved moved
          && moved.headSize() != null
          && !moved.headSize().unitUnsaid()
          && moved.headSize().unit().dimension() == planned.unit().dimension()
          && moved.headSize().base().compareTo(planned.base()) != 0) {
        found
            .add(WRONG_HEAD, item.id(), item.label())
            .with("head", planned)
            .with("said", moved.headSize())
            .seenIn(event.said());
      }
    }
  }

  /** The plan gives no head size but the thread: then the standards say which are usual. */
  private static void usualHead(JobView job, Item item, Drafts found) {
    Set<Integer> usual =
        Optional.ofNullable(item.thread())
            .flatMap(ScrewThread::read)
            .flatMap(WidthAcrossFlats::of)
            .map(WidthAcrossFlats::sizesMm)
            .orElse(Set.of());
    for (At<Statement> event :
        usual.isEmpty() ? List.<At<Statement>>of() : job.eventsOf(item.id())) {
      if (event.statement() instanceof ItemsMoved moved
          && moved.headSize() != null
          && moved.headSize().unit() == Unit.MILLIMETRE
          && usual.stream()
              .map(size -> Rational.of(size, 1))
              .noneMatch(Rational.of(moved.headSize().value())::equals)) {
        found
            .add(HEAD_UNUSUAL, item.id(), item.label())
            .with("thread", String.valueOf(item.thread()))
            .with("usual", FindingText.numbers(usual))
            .with("said", moved.headSize())
            .seenIn(event.said());
      }
    }
  }

  private static void condition(JobView job, Item item, ItemAccount account, Drafts found) {
    if (item.renew() || item.stretch()) {
      renewal(job, item, account, found);
    } else if (!item.carryOver()) {
      singleUseByName(item, account, found);
    }
    if (item.carryOver() && job.expected(item) && !carriedOver(account)) {
      found
          .add(NOT_CARRIED_OVER, item.id(), item.label())
          .restingOn(job.stepsFitting(item))
          .seenIn(job.evidenceOf(item));
    }
  }

  /** The plan does not ask for a new one, but its name says that it is used once. */
  private static void singleUseByName(Item item, ItemAccount account, Drafts found) {
    List<Standing> old = account.fittedOld();
    if (!old.isEmpty() && !renewedAfter(account, old.get(old.size() - 1))) {
      TradeNames.singleUse(item)
          .ifPresent(
              sort ->
                  found
                      .add(OLD_PUT_BACK, item.id(), item.label())
                      .weighs(Weight.CHECK, Kind.AFTER_TEST)
                      .with("what", FindingText.singleUseByName(sort))
                      .seenIn(old));
    }
  }

  private static boolean carriedOver(ItemAccount account) {
    return !account.carriedOver().isEmpty()
        || !account.fittedNew().isEmpty()
        || account.postings().stream()
            .anyMatch(each -> each.from() == Account.TRAY && each.to() == Account.MACHINE);
  }

  private static void renewal(JobView job, Item item, ItemAccount account, Drafts found) {
    int newOnes = allNew(account) ? item.count() : account.newCount();
    List<Standing> old = new ArrayList<>(account.fittedOld());
    old.addAll(account.carriedOver());
    if (!old.isEmpty() && !renewedAfter(account, old.get(old.size() - 1))) {
      found
          .add(OLD_PUT_BACK, item.id(), item.label())
          .with("what", item.stretch() ? FindingText.STRETCH_BOLT : FindingText.SINGLE_USE)
          .seenIn(old);
    } else if (newOnes < item.count() && job.expected(item)) {
      found
          .add(RENEWAL_UNSAID, item.id(), item.label())
          .restingOn(job.stepsFitting(item))
          .with("count", item.count())
          .with("new", newOnes)
          .seenIn(job.evidenceOf(item));
    }
  }

  /** "New bolts in" without a number speaks of the whole group. */
  private static boolean allNew(ItemAccount account) {
    return account.fittedNew().stream()
        .anyMatch(
            said ->
                said.statement() instanceof PartFitted
                    || (said.statement() instanceof ItemsMoved moved
                        && (moved.lump() || moved.count() == null)));
  }

  private static boolean renewedAfter(ItemAccount account, Standing old) {
    return account.fittedNew().stream()
        .anyMatch(said -> !said.entry().happenedAt().isBefore(old.entry().happenedAt()));
  }

  private static void alignment(JobView job, Item item, Drafts found) {
    if (item.alignment() == null || !job.expected(item)) {
      return;
    }
    At<Statement> last = null;
    for (At<Statement> event : job.eventsOf(item.id())) {
      if (event.statement() instanceof Aligned) {
        last = event;
      } else if (event.statement() instanceof ItemsMoved moved && moved.move() == ItemMove.OFF) {
        last = null;
      }
    }
    Amount planned = item.alignment().angle();
    Amount tolerance = item.alignment().tolerance();
    Amount said =
        last != null && last.statement() instanceof Aligned aligned ? aligned.angle() : null;
    if (last == null || (said != null && said.unit() != Unit.DEGREE)) {
      found
          .add(ALIGNMENT_UNSAID, item.id(), item.label())
          .restingOn(job.stepsFitting(item))
          .with("angle", FindingText.clock(planned))
          .seenIn(job.evidenceOf(item));
    } else if (said != null && turn(said, planned).compareTo(tolerance.base()) > 0) {
      found
          .add(ALIGNMENT_OUTSIDE, item.id(), item.label())
          .with("angle", FindingText.clock(planned))
          .with("said", FindingText.clock(said))
          .with("difference", FindingText.inUnit(turn(said, planned), Unit.DEGREE))
          .with("tolerance", tolerance)
          .seenIn(last.said());
    }
  }

  /** The smaller angle between two directions, in degrees. */
  private static Rational turn(Amount one, Amount other) {
    Rational full = Rational.of(360, 1);
    Rational turn = one.base().minus(other.base()).abs();
    while (turn.compareTo(full) >= 0) {
      turn = turn.minus(full);
    }
    Rational rest = full.minus(turn);
    return turn.compareTo(rest) <= 0 ? turn : rest;
  }

  private static void notInPlan(JobView job, Drafts found) {
    for (ItemAccount account : job.ledger().items().values()) {
      if (account.item().isEmpty()
          && (account.count(Account.TRAY) != 0 || !account.uncounted().isEmpty())) {
        found
            .add(NOT_IN_PLAN, account.subject(), account.label())
            .with("tray", FindingText.signed(account.count(Account.TRAY)))
            .seenIn(movesOf(account));
      }
      if (account.item().isEmpty()) {
        dropped(account, List.of(), found);
      }
    }
    job.ledger().fluids().values().stream()
        .filter(account -> account.system().isEmpty())
        .forEach(
            account ->
                found
                    .add(NOT_IN_PLAN, account.subject(), account.label())
                    .with("tray", FindingText.FLUID_NOT_SUMMED)
                    .seenIn(account.uncounted())
                    .seenIn(account.postings().stream().map(Posting::said).toList()));
    job.tightenedNowhere()
        .forEach(
            at ->
                found
                    .add(NOT_IN_PLAN, at.said().entry().id(), FindingText.GROUP_NOT_SAID)
                    .with("tray", Tightness.inWords(job, at.statement()))
                    .seenIn(at.said()));
  }
}
