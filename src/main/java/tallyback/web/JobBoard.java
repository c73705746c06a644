package tallyback.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tallyback.app.CheckedJob;
import tallyback.app.LiveJob;
import tallyback.app.SteadyClock;
import tallyback.dialogue.Reply;
import tallyback.log.LogFailed;
import tallyback.log.LogRefused;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.report.WallView;

/**
 * What all pages are shown: what became of what was said, and how the job stands. Reckoning it has
 * a thread of its own, so that nobody who speaks waits for it. May be used from any thread; {@link
 * #close} ends the reckoning.
 */
final class JobBoard implements AutoCloseable {

  /** Whoever hasn't answered by then doesn't: it is noted as unconfirmed. */
  private static final Duration ANSWER_WAITED_FOR = Duration.ofMinutes(2);

  private static final int EARLIER_ENTRIES = 8;

  private final PageServer.Settings settings;
  private final SteadyClock clock;
  private final Pages pages;
  private final Consumer<String> ready;
  private final ExecutorService reckoner = Executors.newSingleThreadExecutor(JobBoard::named);
  private final AtomicBoolean due = new AtomicBoolean();
  private volatile @Nullable String job;
  private volatile @Nullable Instant askedSince;
  private volatile String state = "starting";
  private volatile String stateSays = "";
  private volatile String clockSays = "";
  private volatile String usedTo = "";
  private volatile String secondSays = "";

  /**
   * A board without a job yet.
   *
   * @param clock the clock of the settings, which never goes back
   * @param ready told when it listens: the job, then what the user should know before, if anything
   */
  JobBoard(PageServer.Settings settings, SteadyClock clock, Pages pages, Consumer<String> ready) {
    this.settings = settings;
    this.clock = clock;
    this.pages = pages;
    this.ready = ready;
  }

  private static Thread named(Runnable work) {
    Thread thread = new Thread(work, "page-board");
    thread.setDaemon(true);
    return thread;
  }

  /** The job that is noted into; null before it is open. */
  @Nullable String job() {
    return job;
  }

  /** In a word: starting, listening, ended or failed. */
  String state() {
    return state;
  }

  /** A page has said who it is: shows it all there is, or that it must wait. */
  void greet(PageLink link) {
    if (job == null) {
      link.send(Messages.of("state").put("state", state).put("says", stateSays));
      return;
    }
    ObjectNode welcome = Messages.of("welcome");
    welcome.put("version", 1).put("job", job).put("attention", settings.attention());
    welcome.put("window", PageSound.WINDOW / 2);
    welcome.put("aloud", settings.voice() != null);
    welcome.put("plans", settings.plans() != null);
    link.send(welcome);
    link.send(Messages.of("ping").put("sentMs", settings.nowMs()));
    pages.show(link);
    if (!clockSays.isEmpty()) {
      link.send(Messages.clock(clockSays));
    }
    if (!usedTo.isEmpty()) {
      link.send(Messages.usedTo(usedTo));
    }
    if (!secondSays.isEmpty()) {
      link.send(Messages.second(secondSays));
    }
  }

  /** Tells all pages when the machine's clock was set back, and when that is over. */
  void compareClocks() {
    Duration back = clock.setBack();
    if (back.isZero() != clockSays.isEmpty()) {
      clockSays = back.isZero() ? "" : SteadyClock.setBackText(back);
      pages.sendAll(Messages.clock(clockSays));
    }
  }

  /** Tells all pages what is wrong with the second recogniser; from any thread. */
  void secondFails(String says) {
    secondSays = says;
    pages.sendAll(Messages.second(says));
  }

  /** Shows what has happened to the job. */
  void tell(LiveJob.Event event) {
    if (event instanceof LiveJob.Event.Ready started) {
      begin(started);
    } else if (event instanceof LiveJob.Event.Told told) {
      told(told);
    } else if (event instanceof LiveJob.Event.Standing standing) {
      askedSince = standing.answers().isEmpty() ? null : settings.setting().clock().instant();
      pages.answers(Messages.answers(standing.answers()));
    } else if (event instanceof LiveJob.Event.Listens listens) {
      pages.way(Messages.way(listens.way()));
    } else if (event instanceof LiveJob.Event.Noise noise) {
      pages.noise(Messages.noise(noise.now()));
    } else if (event instanceof LiveJob.Event.ReminderDue reminder) {
      pages.told(Messages.reminder(reminder, settings.setting().zone()));
    } else if (event instanceof LiveJob.Event.LeftOpen left) {
      pages.told(Messages.leftOpen(left.entry(), settings.plan().grammar()));
      isDue();
    } else if (event instanceof LiveJob.Event.NoiseTried noise) {
      usedTo = noise.tried().said();
      pages.sendAll(Messages.usedTo(usedTo));
    } else if (event instanceof LiveJob.Event.SpokenInto) {
      pages.told(
          Messages.heard(
              "rejected",
              settings.setting().clock().instant(),
              settings.setting().zone(),
              "",
              PageTexts.SPOKEN_INTO));
    }
  }

  private void begin(LiveJob.Event.Ready started) {
    job = started.job();
    state = "listening";
    CheckedJob checked = CheckedJob.read(settings.data(), started.job());
    show(checked);
    List<Entry> said =
        checked.entries().stream().filter(each -> each.source() != Source.TOOL).toList();
    said.subList(Math.max(0, said.size() - EARLIER_ENTRIES), said.size())
        .forEach(each -> pages.told(Messages.earlier(each, settings.plan().grammar())));
    pages.all().stream().filter(link -> link.hello() != null).forEach(this::greet);
    ready.accept("job " + started.job());
    if (!started.notice().isEmpty()) {
      ready.accept(started.notice());
    }
  }

  private void told(LiveJob.Event.Told told) {
    Reply reply = told.reply();
    reply
        .leftOpen()
        .forEach(left -> pages.told(Messages.leftOpen(left, settings.plan().grammar())));
    pages.told(Messages.told(told, settings.plan().grammar(), settings.setting().zone()));
    if (reply.status() == Reply.Status.NOTED
        || reply.entry() != null
        || !reply.leftOpen().isEmpty()) {
      isDue();
    }
  }

  /** Whether a question has waited too long for its answer; true once for each. */
  boolean hasWaitedInVain() {
    Instant since = askedSince;
    if (since == null
        || !settings.setting().clock().instant().isAfter(since.plus(ANSWER_WAITED_FOR))) {
      return false;
    }
    askedSince = null;
    return true;
  }

  /** Reckons once, however many entries came meanwhile. */
  private void isDue() {
    if (due.compareAndSet(false, true)) {
      reckoner.execute(this::reckon);
    }
  }

  private void reckon() {
    due.set(false);
    String known = job;
    if (known != null) {
      try {
        show(CheckedJob.read(settings.data(), known));
      } catch (LogRefused | LogFailed e) {
        state(state, String.valueOf(e.getMessage()));
      }
    }
  }

  private void show(CheckedJob checked) {
    pages.board(
        Messages.board(WallView.of(checked.plan(), checked.outcome()), checked.entries().size()));
  }

  /** Says in a word how it is now, and why. */
  void state(String now, String says) {
    stateSays = says;
    state = now;
    pages.sendAll(Messages.of("state").put("state", now).put("says", says));
  }

  @Override
  public void close() {
    reckoner.shutdownNow();
  }
}
