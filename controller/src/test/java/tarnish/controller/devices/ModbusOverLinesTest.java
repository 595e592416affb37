package tarnish.controller.devices;

import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputPlace;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.Register.Kind;
import tarnish.controller.devices.setup.Register.Table;
import tarnish.controller.devices.setup.Register.WordOrder;
import tarnish.controller.devices.setup.Scaling;
import tarnish.controller.files.RigFile;
import tarnish.controller.files.RigReader;
import tarnish.controller.instruments.PretendedBench;
import tarnish.controller.instruments.SerialPair;
import tarnish.controller.instruments.Wire;
import tarnish.shared.quantity.Unit;

class ModbusOverLinesTest {
  @TempDir Path folder;

  @Test
  void aUnitAnswersAgainAfterSilenceAndReopening() throws Exception {
    RigFile file =
        RigReader.readFile(
                "f", java.nio.file.Files.readString(Path.of("../sim/demo/instruments.rig.yaml")))
            .value();
    var recipe =
        tarnish.controller.files.RecipeReader.read(
                "r",
                java.nio.file.Files.readString(
                    Path.of("../sim/demo/instruments-short.recipe.yaml")),
                java.util.Optional.of(file.rig()))
            .value();
    try (SerialPair line = SerialPair.open(folder, "unit")) {
      PretendedBench bench =
          new PretendedBench(
              file.rig(), new tarnish.sim.SimulatedRig(file.rig(), recipe, 1), System::nanoTime);
      Wire wire = Wire.toUnit(line.far(), bench);
      InputSpec seal =
          new InputSpec(
              "SEAL",
              new InputPlace.InRegister(
                  5, Table.INPUT_REGISTER, 0, Kind.INT16, WordOrder.HIGH_FIRST),
              new Scaling.InUnit(0.1, 0, Unit.CELSIUS),
              0.1);
      DeviceSpec spec =
          new DeviceSpec(
              "unit",
              0.2,
              new DeviceSpec.ModbusSerial(
                  new DeviceSpec.SerialLine(
                      line.near().toString(), 19_200, DeviceSpec.Parity.NONE, 1)),
              List.of(seal),
              List.of());
      ModbusDevice device = new ModbusDevice(spec);
      device.open();
      System.out.println(device.ask(seal));
      for (Wire.Trouble trouble :
          List.of(
              Wire.Trouble.SILENT,
              Wire.Trouble.WRONG_END,
              Wire.Trouble.HALF,
              Wire.Trouble.GARBAGE)) {
        wire.set(trouble);
        for (int i = 0; i < 3; i++) {
          System.out.println(
              trouble
                  + " "
                  + assertThrows(DeviceTrouble.class, () -> device.ask(seal)).getMessage());
        }
        long t = System.nanoTime();
        device.close();
        System.out.println("close " + (System.nanoTime() - t) / 1e6);
        wire.set(Wire.Trouble.NONE);
        t = System.nanoTime();
        device.open();
        System.out.println("open " + (System.nanoTime() - t) / 1e6);
        for (int i = 0; i < 3; i++) {
          try {
            System.out.println(device.ask(seal));
          } catch (DeviceTrouble e) {
            System.out.println(e.getMessage());
          }
        }
      }
      device.close();
    }
  }
}
