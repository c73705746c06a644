package tallyback.cli;

import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/**
 * Where the program starts: reads the command line and hands on to the verb that was asked for.
 *
 * <p>Runs on the thread that started the JVM. Results go to standard output, messages to standard
 * error, and the process ends with the verb's exit code.
 */
@Command(
    name = "tallyback",
    mixinStandardHelpOptions = true,
    versionProvider = Main.PackagedVersion.class,
    description = "Hands-free job log for mechanics: what came off must be tallied back on.")
public final class Main implements Runnable {
  @Spec private CommandSpec spec;

  private Main() {}

  /**
   * Runs one command and ends the JVM with its exit code.
   *
   * @param args the command line
   */
  public static void main(String[] args) {
    System.exit(new CommandLine(new Main()).execute(args));
  }

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "No command was given. Name one; 'tallyback --help' lists them.");
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
