//! What every store tells of scopes, and that what it keeps along equals a recount.
