package tarnish.controller.control;

import java.lang.reflect.Array;
import java.lang.reflect.Field;
import java.lang.reflect.Modifier;

/** Writes every field of a state, arrays included, so that two states can be compared whole. */
final class DeepText {
  private DeepText() {}

  static String of(Object value) {
    StringBuilder text = new StringBuilder();
    write(value, text);
    return text.toString();
  }

  private static void write(Object value, StringBuilder text) {
    if (value == null || value instanceof String || value instanceof Number) {
      text.append(value);
    } else if (value instanceof Boolean || value instanceof Enum<?>) {
      text.append(value);
    } else if (value.getClass().isArray()) {
      text.append('[');
      for (int i = 0; i < Array.getLength(value); i++) {
        write(Array.get(value, i), text);
        text.append(',');
      }
      text.append(']');
    } else if (value instanceof Iterable<?> many) {
      text.append('(');
      many.forEach(
          each -> {
            write(each, text);
            text.append(',');
          });
      text.append(')');
    } else if (value.getClass().getName().startsWith("java.")) {
      text.append(value);
    } else {
      writeFields(value, text);
    }
  }

  private static void writeFields(Object value, StringBuilder text) {
    text.append(value.getClass().getSimpleName()).append('{');
    for (Field field : value.getClass().getDeclaredFields()) {
      if (!Modifier.isStatic(field.getModifiers())) {
        field.setAccessible(true);
        text.append(field.getName()).append('=');
        try {
          write(field.get(value), text);
        } catch (IllegalAccessException e) {
          throw new AssertionError(e);
        }
        text.append(';');
      }
    }
    text.append('}');
  }
}
