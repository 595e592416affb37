package tarnish.shared.estimate;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.SplittableRandom;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.junit.jupiter.api.Test;

class CholeskyTest {
  @Test
  void solutionsAgreeWithAnIndependentLibraryEvenForUnitsOfVeryDifferentSize() {
    for (long seed = 0; seed < 100; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      int n = random.nextInt(1, 7);
      double[][] root = new double[n][n];
      double[] right = new double[n];
      for (int i = 0; i < n; i++) {
        double unit = Math.pow(10, random.nextInt(-6, 7));
        for (int j = 0; j < n; j++) {
          root[i][j] = unit * (random.nextGaussian() + (i == j ? 3 : 0));
        }
        right[i] = unit * random.nextGaussian();
      }
      RealMatrix matrix = new Array2DRowRealMatrix(root);
      matrix = matrix.multiply(matrix.transpose());
      double[] solution = new Cholesky(matrix.getData()).solve(right);
      double[] back = matrix.operate(solution);
      for (int i = 0; i < n; i++) {
        back[i] /= Math.sqrt(matrix.getEntry(i, i));
        right[i] /= Math.sqrt(matrix.getEntry(i, i));
      }
      assertArrayEquals(right, back, 1e-9, "seed " + seed);
    }
    double[][] plain = {{4, 1, 0.5}, {1, 3, -0.2}, {0.5, -0.2, 2}};
    double[] right = {1, 2, 3};
    assertArrayEquals(
        new LUDecomposition(new Array2DRowRealMatrix(plain))
            .getSolver()
            .solve(new Array2DRowRealMatrix(right))
            .getColumn(0),
        new Cholesky(plain).solve(right),
        1e-14);
  }

  @Test
  void matricesThatAreNotPositiveDefiniteAreRefused() {
    for (double[][] bad :
        new double[][][] {{{0}}, {{-1}}, {{Double.NaN}}, {{1, 1}, {1, 1}}, {{1, 2}, {2, 1}}}) {
      assertThrows(IllegalArgumentException.class, () -> new Cholesky(bad));
    }
  }
}
