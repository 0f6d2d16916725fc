### Signing in, the code of the second factor, and the door of an inspector's link.

office-sign-in-title = Sign in
office-sign-in-name = Name
office-sign-in-password = Password
office-sign-in-made = Accounts are made on the server:
office-sign-in-wait =
    { $count ->
        [one] Too many wrong tries. Wait { $count } second, then try again.
       *[other] Too many wrong tries. Wait { $count } seconds, then try again.
    }
office-sign-in-many = Many people are signing in now. Wait a few seconds, then try again.
office-sign-in-wrong = Wrong name or password.
office-sign-in-code-title = Your code
office-sign-in-code-lead = Enter the six digits that your phone shows now for Farsiding. If the phone is lost, enter a recovery code.
office-sign-in-code = Code
office-sign-in-code-neither = No phone and no recovery code? Ask an administrator to reset the second factor, then
office-sign-in-code-again = sign in again
office-sign-in-code-late = That took longer than five minutes. Sign in again.
office-sign-in-code-wrong = This code is wrong or was used before. Enter the next code that your phone shows.
office-sign-in-link-title = A record is open to you
office-sign-in-link-for = For { $label }, by { $by }, until { $until }.
office-sign-in-link-note = The link opens one record and its packet. The office sees that you looked, and when.
office-sign-in-link-open = Open the record
office-sign-in-link-over = This link opens nothing: it expired, was revoked, or is incomplete. Ask the office for a new one.
