package tarnish.controller.app;

import picocli.CommandLine.IVersionProvider;

/** The version in the jar's manifest. */
final class Version implements IVersionProvider {
  static String text() {
    String version = Version.class.getPackage().getImplementationVersion();
    return version == null ? "not packaged" : version;
  }

  @Override
  public String[] getVersion() {
    return new String[] {"Tarnish " + text()};
  }
}
