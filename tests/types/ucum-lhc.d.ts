// The package brings no types; these are the parts that the tests use.
interface UcumLhcUtils {
  convertUnitTo(
    from: string,
    value: number,
    to: string,
  ): { status: string; toVal: number | null; msg: string[] };
  validateUnitString(unit: string): {
    status: 'valid' | 'invalid' | 'error';
    ucumCode: string | null;
    msg: string[];
  };
}

declare const ucum: { UcumLhcUtils: { getInstance(): UcumLhcUtils } };
export default ucum;
