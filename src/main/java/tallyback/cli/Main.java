package tallyback.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.Spec;
import picocli.CommandLine.UnmatchedArgumentException;
import tallyback.app.MachineFailed;
import tallyback.app.WrongUse;
import tallyback.audio.AudioRefused;
import tallyback.log.LogFailed;
import tallyback.log.LogRefused;

/**
 * Where the program starts: reads the command line and hands on to the verb that was asked for.
 *
 * <p>Runs on the thread that started the JVM. Results go to standard output, messages to standard
 * error, always in UTF-8, and the process ends with the verb's exit code.
 */
@Command(
    name = "tallyback",
    mixinStandardHelpOptions = true,
    versionProvider = Main.PackagedVersion.class,
    description = "Hands-free job log for mechanics: what came off must be tallied back on.",
    synopsisSubcommandLabel = "COMMAND",
    footer = {
      "",
      "'tallyback COMMAND --help' shows the use of one. To begin: demo, then phrases with a plan.",
      "",
      "Exit codes: 0 nothing to act on, 1 a finding to act on, 2 wrong use or bad input, 3 the"
          + " machine failed (disk full, file locked and the like)."
    })
public final class Main implements Runnable {
  /** Commands that are announced and not there yet. */
  private static final Set<String> TO_COME =
      Set.of("prep", "backup", "restore", "recover", "forget");

  private static final int MOST_LETTERS_MISSED = 3;

  @Spec private CommandSpec spec;

  private Main() {}

  /**
   * Runs one command and ends the JVM with its exit code.
   *
   * @param args the command line
   */
  public static void main(String[] args) {
    PrintStream out = utf8(FileDescriptor.out);
    PrintStream err = utf8(FileDescriptor.err);
    Console console =
        new Console(
            new PrintWriter(out, true, StandardCharsets.UTF_8),
            new PrintWriter(err, true, StandardCharsets.UTF_8),
            Terminal.isThere(),
            InstantSource.system(),
            ZoneId.systemDefault());
    System.exit(run(console, args));
  }

  private static PrintStream utf8(FileDescriptor descriptor) {
    return new PrintStream(new FileOutputStream(descriptor), true, StandardCharsets.UTF_8);
  }

  /** Runs one command and returns its exit code; what tests call. */
  static int run(Console console, String... args) {
    LibraryLogging.quieten();
    boolean debug = Arrays.asList(args).contains("--debug");
    String[] given =
        Arrays.stream(args).filter(arg -> !arg.equals("--debug")).toArray(String[]::new);
    CommandLine line = new CommandLine(new Main());
    line.addSubcommand(new DemoCommand(console))
        .addSubcommand(new HearCommand(console))
        .addSubcommand(new ListenCommand(console))
        .addSubcommand(new ServeCommand(console))
        .addSubcommand(new TeachCommand(console))
        .addSubcommand(new EnterCommand(console))
        .addSubcommand(new CheckCommand(console))
        .addSubcommand(new ReviewCommand(console))
        .addSubcommand(new ReportCommand(console))
        .addSubcommand(new ExportCommand(console))
        .addSubcommand(new PhotosCommand(console))
        .addSubcommand(new LintCommand(console))
        .addSubcommand(new PlanFromJobCommand(console))
        .addSubcommand(new PlanLearnCommand(console))
        .addSubcommand(new PhrasesCommand(console))
        .addSubcommand(new PrepCommand(console))
        .addSubcommand(new FindingsCommand(console))
        .addSubcommand(new JobsCommand(console))
        .addSubcommand(new CompareCommand(console))
        .addSubcommand(new TrendsCommand(console))
        .addSubcommand(new CloseCommand(console))
        .addSubcommand(new VisitCommand(console))
        .addSubcommand(new VerifyCommand(console))
        .addSubcommand(new SettingsCommand(console))
        .addSubcommand(new DoctorCommand(console));
    line.setExecutionStrategy(
        parsed -> {
          LibraryLogging.into(homeOf(parsed).state());
          return new CommandLine.RunLast().execute(parsed);
        });
    line.setOut(console.out());
    line.setErr(console.err());
    line.setParameterExceptionHandler((e, arguments) -> wrongUse(console, e));
    line.setExecutionExceptionHandler((e, command, parsed) -> failed(console, e, debug));
    int code = line.execute(given);
    LibraryLogging.stop();
    console.out().flush();
    console.err().flush();
    return code;
  }

  private static HomeFolder homeOf(ParseResult parsed) {
    ParseResult last = parsed;
    while (last.hasSubcommand()) {
      last = last.subcommand();
    }
    Path named = last.matchedOptionValue(DataOption.HOME, null);
    return new HomeFolder(named, System.getenv());
  }

  private static int wrongUse(Console console, ParameterException e) {
    console.err().println(told(e));
    return ExitCode.WRONG_USE;
  }

  private static String told(ParameterException e) {
    String help = "'" + e.getCommandLine().getCommandSpec().qualifiedName() + " --help' shows ";
    if (!(e instanceof UnmatchedArgumentException unmatched) || unmatched.isUnknownOption()) {
      return oneLine(e.getMessage()) + "; " + help + "the use";
    }
    String word = unmatched.getUnmatched().get(0);
    if (e.getCommandLine().getParent() != null) {
      return "one word too many: '" + word + "'; " + help + "the use";
    }
    return TO_COME.contains(word)
        ? "'" + word + "' is not in this version yet; " + help + "what is"
        : "'" + word + "' is no command; " + likely(unmatched) + help + "them all";
  }

  private static String likely(UnmatchedArgumentException unmatched) {
    int length = unmatched.getUnmatched().get(0).length();
    // Two letters in common make no slip of the finger.
    List<String> alike =
        unmatched.getSuggestions().stream()
            .filter(name -> Math.abs(name.length() - length) <= MOST_LETTERS_MISSED)
            .toList();
    return alike.isEmpty() ? "" : "did you mean " + String.join(" or ", alike) + "? ";
  }

  /**
   * Says what went wrong in a line, and gives the trace only to those who ask for it with {@code
   * --debug}.
   */
  private static int failed(Console console, Exception e, boolean debug) {
    if (debug) {
      e.printStackTrace(console.err());
    }
    if (e instanceof WrongUse wrong) {
      wrong.lines().forEach(console.err()::println);
      return ExitCode.WRONG_USE;
    }
    if (e instanceof LogRefused || e instanceof AudioRefused) {
      console.err().println(oneLine(e.getMessage()));
      return ExitCode.WRONG_USE;
    }
    if (e instanceof LogFailed || e instanceof MachineFailed) {
      console.err().println(oneLine(e.getMessage()));
      return ExitCode.MACHINE_FAILED;
    }
    console
        .err()
        .println(
            "something that should not happen did: "
                + oneLine(String.valueOf(e))
                + "; nothing acknowledged is lost, run it again with --debug to see where");
    return ExitCode.MACHINE_FAILED;
  }

  private static String oneLine(@Nullable String message) {
    return message == null
        ? "no reason was given"
        : String.join(" ", message.strip().lines().map(String::strip).toList());
  }

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "no command was given");
  }

  /** The version that the build wrote into the jar. */
  static final class PackagedVersion implements IVersionProvider {
    @Override
    public String[] getVersion() {
      String packaged = Main.class.getPackage().getImplementationVersion();
      return new String[] {"tallyback " + (packaged == null ? "(not packaged)" : packaged)};
    }
  }
}
