package tarnish.controller.notify;

import jakarta.mail.Message;
import jakarta.mail.MessagingException;
import jakarta.mail.Session;
import jakarta.mail.Transport;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeMessage;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Date;
import java.util.Optional;
import java.util.Properties;
import tarnish.controller.files.NoticeSettings.Mail;
import tarnish.controller.files.NoticeSettings.Security;

/** Sends plain text by SMTP. */
final class MailWay implements Way {
  private static final String PATIENCE_MILLIS = "10000";

  private final Mail settings;
  private final Optional<String> secret;

  MailWay(Mail settings, Optional<String> secret) {
    this.settings = settings;
    this.secret = secret;
  }

  @Override
  public String name() {
    return "mail";
  }

  @Override
  public void send(String bench, Notice notice, int others) throws IOException {
    Session session = Session.getInstance(properties());
    try {
      MimeMessage message = new MimeMessage(session);
      message.setFrom(new InternetAddress(settings.from()));
      for (String to : settings.to()) {
        message.addRecipient(Message.RecipientType.TO, new InternetAddress(to));
      }
      String more = others > 0 ? " (and " + others + " more)" : "";
      message.setSubject(bench + ": " + notice.subject() + more, StandardCharsets.UTF_8.name());
      message.setText(notice.text() + "\n\n" + notice.at() + "\n", StandardCharsets.UTF_8.name());
      message.setSentDate(new Date());
      message.setHeader("Auto-Submitted", "auto-generated");
      if (settings.user().isPresent()) {
        Transport.send(message, settings.user().get(), secret.orElse(""));
      } else {
        Transport.send(message);
      }
    } catch (MessagingException e) {
      throw new IOException(e.getMessage(), e);
    }
  }

  private Properties properties() {
    Properties properties = new Properties();
    properties.put("mail.smtp.host", settings.server());
    properties.put("mail.smtp.port", Integer.toString(settings.port()));
    for (String name : new String[] {"connectiontimeout", "timeout", "writetimeout"}) {
      properties.put("mail.smtp." + name, PATIENCE_MILLIS);
    }
    properties.put("mail.smtp.ssl.enable", Boolean.toString(settings.security() == Security.TLS));
    boolean startTls = settings.security() == Security.STARTTLS;
    properties.put("mail.smtp.starttls.enable", Boolean.toString(startTls));
    properties.put("mail.smtp.starttls.required", Boolean.toString(startTls));
    properties.put("mail.smtp.ssl.checkserveridentity", "true");
    properties.put("mail.smtp.auth", Boolean.toString(settings.user().isPresent()));
    return properties;
  }
}
