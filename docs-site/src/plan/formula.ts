export { applicationPlan as formula } from 'swathe';
