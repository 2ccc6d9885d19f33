// Points on a drawing.

export const SVG = "http://www.w3.org/2000/svg";

export function onDrawing(svg, event) {
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  return [point.x, point.y];
}
