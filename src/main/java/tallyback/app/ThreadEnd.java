package tallyback.app;

/** How a thread of ours is ended. */
final class ThreadEnd {

  private ThreadEnd() {}

  /** Interrupts a thread and waits until it has ended; an interruption meanwhile is passed on. */
  static void interruptAndAwait(Thread thread) {
    thread.interrupt();
    boolean interrupted = false;
    while (thread.isAlive()) {
      try {
        thread.join();
      } catch (InterruptedException e) {
        interrupted = true;
      }
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
  }
}
