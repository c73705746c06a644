package tallyback.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;
import java.util.function.Function;
import org.eclipse.jetty.websocket.api.StatusCode;
import org.jspecify.annotations.Nullable;
import tallyback.app.CheckedJob;
import tallyback.app.JobDesk;
import tallyback.app.LiveJob;
import tallyback.app.MachineFailed;
import tallyback.app.Second;
import tallyback.app.SteadyClock;
import tallyback.log.JobLog;
import tallyback.log.LogFailed;
import tallyback.log.LogRefused;
import tallyback.log.Seal;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.phrase.Question.OfListening;

/**
 * One job as it is noted through the page, with all that belongs to it alone: its pages, board,
 * sound and talk. A server has one at a time.
 *
 * <p>Threads: {@link #run} keeps its caller's until {@link #stop} is called, which any thread may
 * do.
 */
final class Bay {

  private final PageServer.Settings settings;
  private final Pages pages = new Pages();
  private final JobBoard board;
  private final PageSound sound;
  private final LiveJob live;
  private final PageTalk talk;

  Bay(PageServer.Settings settings, SteadyClock clock, Consumer<String> ready) {
    this.settings = settings;
    this.board = new JobBoard(settings, clock, pages, ready);
    this.sound = new PageSound(this::alreadyNoted, new Acknowledging());
    PagePlayer player = new PagePlayer(pages::listening, link -> link.send(Messages.of("hush")));
    Second second = settings.second();
    this.live =
        new LiveJob(
            new LiveJob.Settings(
                settings.plan(),
                () ->
                    JobDesk.open(
                        settings.data(),
                        settings.plan(),
                        settings.job(),
                        clock.instant(),
                        settings.setting()),
                settings.attention(),
                OfListening.AFTER_THE_WORD,
                sound::isHeld,
                true,
                settings.voice(),
                settings.voice() == null ? null : () -> player,
                clock,
                second == null ? null : second.alsoTelling(board::secondFails),
                settings.noises()),
            board::tell);
    this.talk = new PageTalk(settings, pages, board, sound, player, live);
  }

  Pages pages() {
    return pages;
  }

  JobBoard board() {
    return board;
  }

  PageTalk talk() {
    return talk;
  }

  /** Does something with the log, between two utterances; null while it can't. */
  <T> @Nullable CompletableFuture<T> withLog(
      Function<JobLog, T> work, Function<T, List<Entry>> noted) {
    return live.withLog(work, noted);
  }

  /** Listens until it is stopped. */
  void run() throws InterruptedException {
    try {
      live.run(sound);
    } catch (IOException e) {
      throw new MachineFailed("the page's sound has failed (" + e.getMessage() + ")", e);
    } catch (RuntimeException e) {
      board.state("failed", String.valueOf(e.getMessage()));
      throw e;
    }
  }

  /** Ends it; what was said last is still noted. */
  void stop() {
    sound.close();
    live.stop();
  }

  /** Tells the pages that nothing follows. */
  void over() {
    board.state("ended", PageTexts.OVER);
  }

  /** Lets the pages go, once it has ended. */
  void close(String reason) {
    board.close();
    pages.all().forEach(link -> link.close(StatusCode.SHUTDOWN, reason));
  }

  /** A job in which nobody noted anything is closed, so that it is not taken for one left open. */
  void putAwayIfEmpty() {
    String job = board.job();
    try {
      if (job != null
          && CheckedJob.read(settings.data(), job).entries().stream()
              .allMatch(entry -> entry.source() == Source.TOOL)) {
        Seal unused = JobDesk.closeJob(settings.data(), job, settings.setting());
      }
    } catch (LogRefused | LogFailed e) {
      // It stays open then, which loses nothing.
    }
  }

  /** Every few seconds. */
  void ping() {
    board.compareClocks();
    pages.sendAll(Messages.of("ping").put("sentMs", settings.nowMs()));
    if (board.hasWaitedInVain()) {
      live.leaveOpen();
    }
  }

  private long alreadyNoted(String stream) {
    String known = board.job();
    return known == null ? 0 : NotedSound.end(settings.data(), known, stream);
  }

  /** Tells the page that listens what it need not keep. */
  private final class Acknowledging implements PageSound.Progress {

    @Override
    public void taken(String stream, long sample) {
      pages.sendListening(at("taken", stream, sample));
    }

    @Override
    public void settled(String stream, long sample) {
      pages.sendListening(at("settled", stream, sample));
    }

    private static ObjectNode at(String type, String stream, long sample) {
      // The device is the page's own: it knows itself by the stream alone.
      String uuid = stream.substring(Math.max(0, stream.length() - 36));
      return Messages.of(type).put("stream", uuid).put("sample", sample);
    }
  }
}
