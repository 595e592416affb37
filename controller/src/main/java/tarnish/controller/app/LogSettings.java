package tarnish.controller.app;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.encoder.PatternLayoutEncoder;
import ch.qos.logback.classic.spi.Configurator;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.ConsoleAppender;
import ch.qos.logback.core.spi.ContextAwareBase;
import ch.qos.logback.core.status.NopStatusListener;
import java.util.Map;

/**
 * Quiet by default: the record of a batch is the journal, not the log. In code and not in a file,
 * because reading XML costs a small board a good part of its start.
 */
public final class LogSettings extends ContextAwareBase implements Configurator {
  private static final Map<String, Level> LEVELS =
      Map.of(
          "org.eclipse.jetty",
          Level.WARN,
          // What others send must not be able to fill the log.
          "org.eclipse.jetty.http.HttpParser",
          Level.ERROR,
          "org.eclipse.jetty.util.HostPort",
          Level.ERROR,
          "io.javalin",
          Level.WARN,
          // A start that fails is told by whoever starts it, in one sentence.
          "io.javalin.Javalin",
          Level.OFF,
          // Every try to reach a chip makes it talk; what comes of it our own log says.
          "com.pi4j",
          Level.OFF,
          // One line for each stray frame: a restless wire would fill the disk; the readings say
          // it.
          "com.digitalpetri.modbus",
          Level.ERROR);

  @Override
  public ExecutionStatus configure(LoggerContext context) {
    context.getStatusManager().add(new NopStatusListener());
    PatternLayoutEncoder encoder = new PatternLayoutEncoder();
    encoder.setContext(context);
    encoder.setPattern("%d{yyyy-MM-dd'T'HH:mm:ss.SSSXXX} %-5level [%thread] %logger{20} %msg%n");
    encoder.start();
    ConsoleAppender<ILoggingEvent> console = new ConsoleAppender<>();
    console.setContext(context);
    console.setName("console");
    console.setTarget("System.err");
    console.setEncoder(encoder);
    console.start();
    LEVELS.forEach((name, level) -> context.getLogger(name).setLevel(level));
    ch.qos.logback.classic.Logger root = context.getLogger(org.slf4j.Logger.ROOT_LOGGER_NAME);
    root.setLevel(Level.INFO);
    root.addAppender(console);
    return ExecutionStatus.DO_NOT_INVOKE_NEXT_IF_ANY;
  }
}
