package tarnish.shared.rig;

import tarnish.shared.reading.Readings;

/**
 * The port through which the controller meets a bench, real or simulated. It cannot tell which.
 *
 * <p>Neither call may block longer than one tick: a device that does not answer becomes a reading
 * of bad quality. Called by the loop thread only.
 */
public interface Rig extends AutoCloseable {
  /** Puts the newest reading of every fitted channel into {@code into}. */
  void read(Readings into);

  /** Sets every output; what is not on in {@code outputs} is de-energised. */
  void write(Outputs outputs);

  /** De-energises every output and lets go of the devices. */
  @Override
  void close();
}
