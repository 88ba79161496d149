//! Every control of every screen is large enough for a glove, and far enough from the next.

use tests::browser::dist;
use tests::browser::host::Host;
use tests::browser::measure::Findings;
use tests::browser::tablet::Tablet;
use tests::browser::tour;

#[test]
fn sizes() {
    let host = Host::start(&dist());
    let tablet = Tablet::new("sizes", &host.address());
    let mut findings = Findings::default();
    tour::all(&tablet, &mut |tablet, seen| {
        findings.take(tablet, seen.name)
    });
    assert!(
        findings.screens() > 100,
        "only {} screens were measured",
        findings.screens()
    );
    let complaints = tablet.complaints();
    assert!(
        complaints.is_empty(),
        "the console is not quiet: {complaints:#?}"
    );
    assert!(findings.is_empty(), "some keys are not for gloves");
}
