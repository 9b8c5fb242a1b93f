/** The form of the sheet on which control surfaces are balanced on their hinges, one row a surface. */
import { form, type FormKey } from './forms';

export const SURFACES = form('Control surfaces', 'control surfaces', [
  { key: 'surface', label: 'Surface', required: true, help: 'aileron, elevator, rudder, tab' },
  {
    key: 'component',
    label: 'Component',
    help: 'the component of the parts list whose rows are the surface, its counterweight among them if it has one',
  },
  {
    key: 'hinge',
    label: 'Hinge line (in)',
    required: true,
    help: 'arm of the hinge line, from the datum of the parts list',
  },
  {
    key: 'raising',
    label: 'Raising (lb)',
    help: 'scale under the trailing edge while it is raised slowly; negative where it has to be held down',
  },
  { key: 'lowering', label: 'Lowering (lb)', help: 'the same while it is lowered slowly' },
  { key: 'scaleArm', label: 'Scale arm (in)', help: 'from the hinge line aft to the scale, the surface level' },
  {
    key: 'ahead',
    label: 'Counterweight arm (in)',
    help: 'from the hinge line forward to where a counterweight can go',
  },
  { key: 'share', label: 'Share (%)', help: 'per cent of the moment to be taken up; blank: 100, full static balance' },
  {
    key: 'partsMoment',
    label: 'From parts (lb·in)',
    computed: true,
    help: 'moment of the parts about the hinge line; positive: trailing-edge heavy',
  },
  { key: 'measured', label: 'Measured (lb·in)', computed: true, help: 'mean of both readings × scale arm' },
  {
    key: 'counterweight',
    label: 'Counterweight (lb)',
    computed: true,
    help: 'that takes up the share of the moment: of the measured one where there is one',
  },
  { key: 'note', label: 'Note', help: 'anything else' },
]);
export type SurfaceKey = FormKey<typeof SURFACES>;
