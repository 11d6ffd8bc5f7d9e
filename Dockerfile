FROM node:22-bookworm-slim AS build
WORKDIR /app
COPY package.json package-lock.json ./
COPY scripts scripts
RUN npm ci --no-audit --no-fund
COPY . .
RUN node scripts/ready.mjs && npm prune --omit=dev

FROM node:22-bookworm-slim
WORKDIR /app
ENV NODE_ENV=production HOST=0.0.0.0 PORT=3000
COPY --from=build /app/package.json ./
COPY --from=build /app/node_modules node_modules
COPY --from=build /app/dist dist
COPY --from=build /app/prisma prisma
# Mails without a mail server are written there.
RUN mkdir .data && chown node .data
USER node
EXPOSE 3000
CMD ["node", "--max-old-space-size=160", "--max-semi-space-size=8", "dist/src/main.js"]
