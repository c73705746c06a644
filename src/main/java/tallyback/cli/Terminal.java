package tallyback.cli;

import java.io.Console;
import java.lang.reflect.InvocationTargetException;

/** Tells whether somebody looks at what is printed. */
final class Terminal {

  private Terminal() {}

  /** The next line that is typed; empty when nothing more comes. */
  @SuppressWarnings("SystemConsoleNull")
  static String line() {
    Console console = System.console();
    String line = console == null ? null : console.readLine();
    return line == null ? "" : line;
  }

  /**
   * True when standard input and output are a terminal. Up to Java 21 there is a console only then;
   * from Java 22 on there always is one and it must be asked.
   */
  @SuppressWarnings("SystemConsoleNull")
  static boolean isThere() {
    Console console = System.console();
    if (console == null) {
      return false;
    }
    try {
      return (boolean) Console.class.getMethod("isTerminal").invoke(console);
    } catch (NoSuchMethodException e) {
      return true;
    } catch (IllegalAccessException | InvocationTargetException e) {
      return false;
    }
  }
}
