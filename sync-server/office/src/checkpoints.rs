//! Publishes checkpoints of the ledger's log at most a second after entries arrived, apart from the rounds
//! that brought them.
//!
//! A receipt says that the office holds an entry and promises nothing about a checkpoint. Whoever asks for a
//! proof, a packet, a stamp or a witness has a checkpoint published first, so nobody waits for this task.

use std::sync::Arc;
use std::time::Duration;

use farsiding_core::evidence::ledger_log;
use farsiding_core::store::{Store, StoreError};
use farsiding_core::sync::ledger_time;
use tokio::time::Instant;

use crate::state::Office;

/// The least time between two checkpoints of this task, and the longest time for which new leaves wait.
pub const EVERY: Duration = Duration::from_millis(900);

/// Publishes checkpoints until the server stops. The first one covers what a server that was killed left.
pub(crate) async fn publish_at_intervals(office: Arc<Office>) {
    let (mut hints, mut stopping) = (office.hints.subscribe(), office.stopping.clone());
    loop {
        let began = Instant::now();
        publish(&office).await;
        tokio::select! {
            () = tokio::time::sleep_until(began + EVERY) => {}
            _ = stopping.wait_for(|stop| *stop) => return,
        }
        tokio::select! {
            _ = hints.recv() => {} // having missed some is a reason as well
            _ = stopping.wait_for(|stop| *stop) => return,
        }
    }
}

async fn publish(office: &Arc<Office>) {
    let here = Arc::clone(office);
    let published = office.on_ledger(move |ledger| publish_new(ledger.store_mut(), &here)).await;
    match published {
        Ok(Ok(())) => {}
        Ok(Err(error)) => tracing::error!(%error, "no checkpoint could be published"),
        Err(_) => tracing::error!("publishing a checkpoint stopped"),
    }
}

/// Publishes a checkpoint if there are leaves that none covers yet.
fn publish_new(store: &mut dyn Store, office: &Office) -> Result<(), StoreError> {
    let size = store.log().size()?;
    if size == 0 || store.log().newest_checkpoint()?.is_some_and(|newest| newest.size == size) {
        return Ok(());
    }
    let now = ledger_time(store, office.now())?;
    ledger_log::publish(store, &office.key, now)?;
    Ok(())
}
