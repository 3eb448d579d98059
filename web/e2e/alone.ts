// A phone with the page on it: beside its server, or one whose server is gone for good.
import { newProfile, type Phone } from "./phone.ts";
import { serve } from "./server.ts";

export interface Alone extends Phone {
  url: string;
  end(): Promise<void>;
}

export async function phoneServed(): Promise<Alone> {
  const server = await serve();
  const profile = await newProfile();
  const phone = await profile.start();
  return {
    ...phone,
    url: server.url,
    async end() {
      await phone.context.close();
      await server.stop();
      await profile.remove();
    },
  };
}

export async function phoneAlone(): Promise<Alone> {
  const server = await serve();
  const profile = await newProfile();
  const phone = await profile.start();
  await phone.page.goto(server.url);
  await phone.page.locator("[data-news=offline]").waitFor();
  await phone.page.locator("[data-news=offline] button").click();
  await server.stop();
  await phone.context.setOffline(true);
  return {
    ...phone,
    url: server.url,
    async end() {
      await phone.context.close();
      await profile.remove();
    },
  };
}
