//! The schedule for asking third parties: every few minutes, and shortly after new entries have arrived.

use std::sync::Arc;
use std::time::Duration;

use tokio::sync::broadcast::Receiver;
use tokio::sync::broadcast::error::RecvError;

use super::stamping::{self, Stamping};
use super::{LedgerAccess as _, witnesses};
use crate::state::Office;
use crate::state::findings::Finding;

/// How often third parties are asked, and for what.
#[derive(Debug, Clone)]
pub struct Duty {
    /// The longest time between two requests to the witnesses, which are only asked about what they have not
    /// signed.
    pub witness_every: Duration,
    /// The time stamp authority named on the command line; if `None`, the one stored in the ledger is asked.
    pub stamping: Option<Stamping>,
}

impl Default for Duty {
    fn default() -> Self {
        Duty { witness_every: Duration::from_secs(10 * 60), stamping: None }
    }
}

/// Asks the third parties until the server stops.
pub(crate) async fn watch(office: Arc<Office>, duty: Duty) {
    let (mut hints, mut stopping) = (office.hints.subscribe(), office.stopping.clone());
    loop {
        tokio::select! {
            asked = ask_all(&office, &duty) => {
                if let Err(why) = asked {
                    tracing::error!(why, "witnesses and the time stamp authority could not be asked");
                }
            }
            _ = stopping.wait_for(|stop| *stop) => return,
        }
        // However many entries arrive, the witnesses are asked at most ten times as often as requested.
        let pause = duty.witness_every / 10;
        tokio::select! {
            () = tokio::time::sleep(pause) => {}
            _ = stopping.wait_for(|stop| *stop) => return,
        }
        tokio::select! {
            () = tokio::time::sleep(duty.witness_every.saturating_sub(pause)) => {}
            () = quiet_after_news(&mut hints, duty.witness_every / 20) => {}
            _ = stopping.wait_for(|stop| *stop) => return,
        }
    }
}

/// Waits for new entries, and then until no more have arrived for a while, but at most for a minute.
async fn quiet_after_news(hints: &mut Receiver<()>, quiet: Duration) {
    async fn news(hints: &mut Receiver<()>) {
        while matches!(hints.recv().await, Err(RecvError::Lagged(_))) {}
    }
    news(hints).await;
    let calm = async { while tokio::time::timeout(quiet, news(hints)).await.is_ok() {} };
    let _ = tokio::time::timeout(Duration::from_secs(60), calm).await; // a minute of steady traffic is long enough to wait
}

/// Asks the witnesses first, so that the time stamp covers what they signed.
async fn ask_all(office: &Arc<Office>, duty: &Duty) -> Result<(), String> {
    let key = Arc::new(office.key.clone());
    let listed = office.with(|store| Ok::<_, String>((witnesses::list(store), stamping::kept(store))));
    let (called, kept) = listed.await??;
    let (called, kept) = (called.map_err(|e| e.to_string())?, kept.map_err(|e| e.to_string())?);
    let stamping = duty.stamping.clone().or(kept);
    for witness in &called {
        witnesses::ask(office, &key, witness, office.now()).await?;
    }
    if let Some(stamping) = &stamping {
        stamping::stamp_when_due(office, &key, stamping, office.now()).await?;
    }
    let findings = office.with(move |store| {
        let mut findings: Vec<Finding> = Vec::new();
        for witness in &called {
            if let Some(verifier) = witness.verifier() {
                findings.push(witnesses::finding(witness, &witnesses::standing(store, &verifier)?));
            }
        }
        if let Some(stamping) = &stamping {
            findings.push(stamping::finding(stamping, &stamping::standing(store)?));
        }
        Ok::<_, farsiding_core::store::StoreError>(findings)
    });
    office.third_parties.found(findings.await?.map_err(|e| e.to_string())?);
    let _ = office.news.send(()); // an error only means that there are no listeners
    Ok(())
}
