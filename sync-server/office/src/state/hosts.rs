//! Two host names: one for the phone app and what devices send, one for the office's pages. A page of one is then of
//! another origin than the other's, so that nothing in the app could act in the office in somebody's name.
//!
//! Without names everything is answered under any. Health is answered under all of them.

/// The names, without ports, in small letters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hosts {
    /// Of the phone app and of what devices send.
    pub app: String,
    /// Of the office's pages.
    pub office: String,
}

/// Returns a host's name as it is compared: without its port, in small letters.
pub fn plain(host: &str) -> String {
    let host = host.trim();
    let name = match host.rsplit_once(':') {
        // An IPv6 address has colons of its own, and brackets where a port follows.
        Some((name, port)) if port.bytes().all(|b| b.is_ascii_digit()) && !name.ends_with(':') => name,
        _ => host,
    };
    name.trim_end_matches('.').to_ascii_lowercase()
}

impl Hosts {
    /// Returns the two names.
    ///
    /// # Errors
    /// In words, when they cannot be told apart or are no names.
    pub fn new(app: &str, office: &str) -> Result<Hosts, String> {
        let hosts = Hosts { app: plain(app), office: plain(office) };
        let odd = |host: &str| host.is_empty() || host.contains(['/', ' ', '@', '?', '#']);
        if odd(&hosts.app) || odd(&hosts.office) {
            return Err("--app-host and --office-host take names alone, such as app.example".to_owned());
        }
        if hosts.app == hosts.office {
            return Err("--app-host and --office-host must be two names; with one leave both out".to_owned());
        }
        Ok(hosts)
    }
}

/// Returns the address of the office's pages on a server that devices reach at `url`.
pub fn of_the_pages(hosts: Option<&Hosts>, url: &str) -> String {
    let url = url.trim_end_matches('/');
    let Some((hosts, (scheme, rest))) = hosts.zip(url.split_once("://")) else { return url.to_owned() };
    let name = plain(rest.split('/').next().unwrap_or_default());
    let port = rest.get(name.len()..).unwrap_or_default();
    format!("{scheme}://{}{port}", hosts.office)
}
