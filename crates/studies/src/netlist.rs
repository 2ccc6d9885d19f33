//! The network of a design's nominal build as a SPICE netlist.

use crate::subject::Subject;
use crate::system::network_of;
use crate::texts::Texts;
use crate::vary::Draw;
use design::Diagnostic;
use physics::loudspeaker::Network;

/// The network of the nominal build, from the amplifier's open-circuit output
/// to box and air, as a plain SPICE netlist.
///
/// Where left and right are alike, the netlist's one channel stands for both:
/// its source path has half the impedance and its drivers are doubled.
///
/// # Errors
/// Everything wrong with the texts, all at once, each with its place.
pub fn netlist(texts: Texts<'_>) -> Result<String, Vec<Diagnostic>> {
    let subject = Subject::new(design::read(texts.design, texts.shelf)?, 1.0)?;
    let (system, _) = network_of(&subject, &subject.build(&Draw::Nominal));
    // A title is one line of the netlist, whatever the design is called.
    let name = &subject.project.design.name.text;
    let title: String = name
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    Ok(Network::new(&system).netlist(&title))
}
