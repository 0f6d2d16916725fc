### Why a page is refused, and what to do.

office-refused-to-sign-in = Sign in
office-refused-to-today = Go to Today
office-refused-unchanged = Nothing was changed
office-refused-account = Not open to your account
office-refused-no-right = Your account does not have this right: { $right }. Ask an administrator.
office-refused-again = Sign in again
office-refused-over = The session has ended.
office-refused-you = Not open to you
office-refused-not-yours = You are signed in, but not for this page. A link opens one record and its packet.
office-refused-no-token = The form is not from a page of this session. Go back, load the page again, then send it.
office-refused-other-site = Another site sent this form. Sign out if you did not mean to send it.
office-refused-not-here = Not found
office-refused-failed = The server could not do that
office-refused-no-page = There is no such page.
office-refused-form = The form is incomplete. Go back, load the page again, then send it.
office-refused-too-large = The form is too large, or did not arrive complete.
office-refused-not-text = The file is not UTF-8 text. Save it as “CSV UTF-8”. Nothing was imported.
office-refused-desk-revoked = The office’s own device was revoked. Nothing can be signed with it.
office-language-unknown = Choose one of the languages listed.

## Failures of the server

office-problem-failed = The server failed. Try again later.
office-problem-busy = The server is busy. Try again in a moment.
office-problem-too-often = Too many requests came from your address. Try again in a moment.
office-problem-full = The server’s disk is full.
office-problem-ledger = The server’s records cannot be written now. Nothing was lost. Try again later.
office-problem-not-found = There is nothing at this address.
office-problem-not-here = This photograph has not reached the server.
