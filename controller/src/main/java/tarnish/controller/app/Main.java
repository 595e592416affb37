package tarnish.controller.app;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import tarnish.controller.journal.JournalException;

/** The command line: 0 done, 1 refused or failed, 2 wrong usage. */
@Command(
    name = "tarnish",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description =
        "Runs and records slow gas-solid oxidations in a laboratory oven."
            + " Not a safety device: hard-wired limits must protect you.")
public final class Main implements Runnable {
  static final int DONE = 0;
  static final int FAILED = 1;

  private static final List<Class<?>> COMMANDS =
      List.of(
          DemoCommand.class,
          ServeCommand.class,
          RehearseCommand.class,
          IdentifyCommand.class,
          OvensCommand.class,
          DosesCommand.class,
          DriftCommand.class,
          CheckCommand.class,
          PlanCommand.class,
          MagneticCommand.class,
          ExportCommand.class,
          RecordCommand.class,
          ArchiveCommand.class,
          BackupCommand.class,
          NotifyCommand.class,
          PeopleCommand.class,
          IdleCommand.class,
          WarmUpCommand.class,
          ReplayCommand.class,
          CoverageCommand.class,
          StallsCommand.class,
          ForecastsCommand.class,
          CampaignCommand.class,
          LatenciesCommand.class,
          BenchCommand.class,
          InstrumentsCommand.class,
          ProofTestCommand.class);

  @CommandLine.Spec CommandLine.Model.CommandSpec spec;

  private Main() {}

  public static void main(String[] arguments) {
    PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    PrintWriter errors = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
    System.exit(run(out, errors, arguments));
  }

  /** Runs one command and gives its exit status. */
  static int run(PrintWriter out, PrintWriter errors, String... arguments) {
    return line(arguments)
        .setOut(out)
        .setErr(errors)
        .setExecutionExceptionHandler((e, command, result) -> failed(e, command))
        .execute(arguments);
  }

  /** Names of all commands. */
  static Set<String> commands() {
    return line().getSubcommands().keySet();
  }

  /** Knows only the command that is asked for, or all: to describe all would delay every start. */
  private static CommandLine line(String... arguments) {
    CommandLine line = new CommandLine(new Main());
    asked(arguments).forEach(line::addSubcommand);
    return line;
  }

  private static List<Class<?>> asked(String... arguments) {
    for (Class<?> command : COMMANDS) {
      if (arguments.length > 0
          && command.getAnnotation(Command.class).name().equals(arguments[0])) {
        return List.of(command);
      }
    }
    return COMMANDS;
  }

  private static int failed(Exception e, CommandLine command) throws Exception {
    if (e instanceof CommandFailure || e instanceof JournalException) {
      PrintWriter errors = command.getErr();
      errors.println(e.getMessage());
      errors.flush();
      return FAILED;
    }
    throw e;
  }

  /** Without a command there is nothing to do. */
  @Override
  public void run() {
    throw new CommandLine.ParameterException(spec.commandLine(), "Say which command to run.");
  }
}
