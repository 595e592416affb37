package tarnish.controller;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Rig;

/** The arrows between the rooms of the house. */
@AnalyzeClasses(packages = "tarnish", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {
  private static final String SHARED = "tarnish.shared..";
  private static final String SIM = "tarnish.sim..";
  private static final String CONTROL = "tarnish.controller.control..";
  private static final String JOURNAL = "tarnish.controller.journal..";
  private static final String SERVICE = "tarnish.controller.service..";
  private static final String FILES = "tarnish.controller.files..";
  private static final String APP = "tarnish.controller.app..";

  /** Whatever gives another answer tomorrow, on another machine or beside another thread. */
  private static final DescribedPredicate<JavaClass> OUTSIDE_WORLD =
      resideInAnyPackage(
              "java.time..",
              "java.io..",
              "java.nio..",
              "java.net..",
              "java.util.concurrent..",
              "java.util.logging..",
              "java.util.random..",
              "java.sql..")
          .or(
              new DescribedPredicate<>("a clock, a thread, chance or machine-dependent maths") {
                @Override
                public boolean test(JavaClass type) {
                  return type.isAssignableTo(java.util.Random.class)
                      || type.isAssignableTo(Thread.class)
                      || type.isEquivalentTo(java.util.SplittableRandom.class)
                      || type.isEquivalentTo(Math.class)
                      || type.isEquivalentTo(Runtime.class)
                      || type.isEquivalentTo(ProcessHandle.class)
                      || type.isEquivalentTo(java.util.Date.class);
                }
              });

  @ArchTest
  static final ArchRule sharedLeansOnNobody =
      classes()
          .that()
          .resideInAPackage(SHARED)
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage("java..", SHARED);

  @ArchTest
  static final ArchRule simLeansOnSharedOnly =
      classes()
          .that()
          .resideInAPackage(SIM)
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage("java..", SHARED, SIM);

  @ArchTest
  static final ArchRule controlLeansOnSharedOnly =
      classes()
          .that()
          .resideInAPackage(CONTROL)
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage("java..", SHARED, CONTROL);

  @ArchTest
  static final ArchRule controlAndSimSeeNoOutsideWorld =
      noClasses()
          .that()
          .resideInAnyPackage(CONTROL, SIM)
          .should()
          .dependOnClassesThat(OUTSIDE_WORLD);

  @ArchTest
  static final ArchRule pureRoomsUseStrictMathOnly =
      noClasses()
          .that()
          .resideInAnyPackage(SHARED, SIM, CONTROL)
          .should()
          .dependOnClassesThat()
          .areAssignableTo(Math.class);

  @ArchTest
  static final ArchRule pureRoomsReadNoClockAndPrintNothing =
      noClasses()
          .that()
          .resideInAnyPackage(SHARED, SIM, CONTROL)
          .should()
          .callMethod(System.class, "currentTimeMillis")
          .orShould()
          .callMethod(System.class, "nanoTime")
          .orShould()
          .callMethod(System.class, "getProperty", String.class)
          .orShould()
          .callMethod(System.class, "getenv", String.class)
          .orShould()
          .accessField(System.class, "out")
          .orShould()
          .accessField(System.class, "err");

  /** Two ways to new outputs: the constructor and the factory. */
  @ArchTest
  static final ArchRule onlyTheGateMakesOutputs =
      noClasses()
          .that()
          .resideInAPackage(CONTROL)
          .and()
          .doNotHaveSimpleName("Gate")
          .should()
          .callConstructor(Outputs.class, int.class, int.class)
          .orShould()
          .callMethod(Outputs.class, "of", int.class, tarnish.shared.rig.Switch[].class)
          .orShould()
          .callMethod(Outputs.class, "with", tarnish.shared.rig.Switch.class, boolean.class);

  @ArchTest
  static final ArchRule theServiceTouchesNoBench =
      noClasses()
          .that()
          .resideInAPackage(SERVICE)
          .should()
          .dependOnClassesThat(
              resideInAPackage(SIM).or(JavaClass.Predicates.equivalentTo(Rig.class)));

  /** Drawing decodes the recorded bits of outputs; it has nobody to give them to. */
  @ArchTest
  static final ArchRule theServiceMakesNoOutputs =
      noClasses()
          .that()
          .resideInAPackage(SERVICE)
          .and()
          .doNotHaveSimpleName("Drawing")
          .should()
          .dependOnClassesThat(JavaClass.Predicates.equivalentTo(Outputs.class));

  @ArchTest
  static final ArchRule theServiceKnowsNoShell =
      noClasses()
          .that()
          .resideInAPackage(SERVICE)
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(APP, SIM);

  @ArchTest
  static final ArchRule theJournalKnowsNeitherPageNorShellNorBench =
      noClasses()
          .that()
          .resideInAPackage(JOURNAL)
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(SERVICE, APP, SIM, FILES);

  @ArchTest
  static final ArchRule filesKnowOnlyTheSharedRoom =
      noClasses()
          .that()
          .resideInAPackage(FILES)
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(CONTROL, JOURNAL, SERVICE, APP, SIM);

  @ArchTest
  static final ArchRule devicesKnowOnlyTheSharedRoom =
      noClasses()
          .that()
          .resideInAPackage("tarnish.controller.devices..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(CONTROL, JOURNAL, SERVICE, APP, SIM);

  @ArchTest
  static final ArchRule nothingInTheControllerLeansOnTheShell =
      noClasses()
          .that()
          .resideInAnyPackage(CONTROL, JOURNAL, SERVICE, FILES)
          .should()
          .dependOnClassesThat()
          .resideInAPackage(APP);
}
