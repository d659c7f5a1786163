"""Every tolerance, each named by the question it answers. Millimetres unless said otherwise."""

#: Do two parts interfere? Overlap deeper than this is a fault; a file cut on a CNC can't hold less.
INTERFERENCE = 0.01

#: Do two surfaces touch? Surfaces closer than this count as in contact.
CONTACT = 0.02

#: Are two faces one and the same when the kernel cuts? Without any slack it drops a tool now and then; far less than
#: anything a shop can hold, so that no real gap or overlap is closed by it.
SAME_FACE = 1e-4

#: Are two points of an outline the same point?
SAME_POINT = 1e-6

#: Are two directions the same? Radians.
SAME_DIRECTION = 1e-9

#: Are two settings of a fence or a cutter one? Closer than this a shop can't set them (common practice).
SAME_SETTING = 0.05

#: How far may a drawn or meshed curve leave the true one (sagitta of a facet)?
FACET = 0.05
